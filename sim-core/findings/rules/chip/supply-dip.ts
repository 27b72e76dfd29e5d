/** A chip whose supply dipped below what its sheet holds for, on the way from one rest to the next; seen only where wires and rails have resistance. */
import { memoryBench } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

/** What is usual, one at each chip [F]: common practice, no source. */
const USUAL = 100e-9;

/** A button hangs an empty capacitor of 1 nF on the rail beside the chip. */
const jolt = `
  wiring real
  WOE wire j16 -j9
  WWE wire j15 +j9
  S9 push-button e40
  WS wire i12 j40
  CS capacitor j42 -j20 farads=1n
  RS resistor i42 -j21 ohms=100k`;
const script = [[{ do: 'press', part: 'S9' } as const]];

export const supplyDip = defineRule({
  code: 'chip/supply-dip',
  severity: 'marginal',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.chips.flatMap((chip) => {
      const dip = scene.chip(chip.placed.part.id)?.dip;
      const [least] = chip.spec.supplyRange;
      if (!dip || dip.low >= least || dip.low + dip.volts < least) return [];
      return [
        {
          at: [toPart(chip.placed), toPin(chip.supply.leg), toPin(chip.ground.leg)],
          data: { measured: dip.low, limit: least, seconds: dip.seconds, cure: USUAL },
        },
      ];
    }),
  bad: { points: 'U1', bench: memoryBench(jolt, 'C9', 'WC9'), script },
  good: { bench: memoryBench(jolt), script },
});
