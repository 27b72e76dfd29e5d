/** A chip whose supply dipped below what its sheet holds for, from one rest to the next; seen only where wires and rails have resistance. */

import { inFarads, inSeconds, inVolts, its, type Ref, say } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

/** What is usual, one at each chip [F]: common practice, no source. */
const USUAL = 100e-9;

interface Data {
  readonly chip: Ref;
  readonly supply: Ref;
  readonly ground: Ref;
  /** the lowest, and what the sheet holds from [V] */
  readonly measured: number;
  readonly limit: number;
  readonly seconds: number;
  /** what to add [F] */
  readonly cure: number;
}

export const supplyDip = defineRule<Data>({
  code: 'chip/supply-dip',
  severity: 'marginal',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.chips.flatMap((chip) => {
      const dip = scene.chip(chip.placed.part.id)?.dip;
      const [limit] = chip.spec.supplyRange;
      if (!dip || dip.low >= limit || dip.low + dip.volts < limit) return [];
      const [supply, ground] = [toPin(chip.supply.leg), toPin(chip.ground.leg)];
      return [{ chip: toPart(chip.placed), supply, ground, measured: dip.low, limit, seconds: dip.seconds, cure: USUAL }];
    }),
  message: ({ chip, supply, ground, measured, limit, seconds, cure }) =>
    say`The supply of ${chip} dipped to ${inVolts(measured)} at ${its(supply)} for ${inSeconds(seconds)} (at least ${inVolts(limit)}). Add ${inFarads(cure)} between there and ${its(ground)}, close to the chip, and use shorter supply wires.`,
});

/** A button connects an empty capacitor of 1 nF to the rail beside the chip. */
const jolt = `
  wiring real
  wire WOE from j16 to -j9
  wire WWE from j15 to +j9
  push-button S9 at e40
  wire WS from i12 to j40
  capacitor CS 1n from j42 to -j20
  resistor RS 100k from i42 to -j21`;
const script = [[{ do: 'press', part: 'S9' } as const]];

export const supplyDipExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench(jolt, 'C9', 'WC9'), script },
  good: { bench: memoryBench(jolt), script },
});
