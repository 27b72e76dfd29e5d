/** A chip with an enable at the wrong rail: what it should show never comes, whatever the switches. A memory's write enable has its own rule. */

import { thresholdsOf } from '../../../parts/part.ts';
import { inVolts, its, listed, type Ref, say } from '../../../sentence/wording.ts';
import { drivenInputs } from '../../driven-inputs.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { wrongEnables } from '../../tied-inputs.ts';
import { STROBE } from '../../write-button.ts';

/** More outputs than these are counted, not named. */
const MOST_NAMED = 3;

interface Data {
  readonly pin: Ref;
  readonly chip: Ref;
  /** what it keeps still, those that lead to something */
  readonly outputs: readonly Ref[];
  readonly so: 'high-impedance' | 'constant';
  readonly level: 'H' | 'L';
  /** its voltage, and the level that it would need: up to, or from, so many volts [V] */
  readonly measured: number;
  readonly limit: number;
}

export const enableAtWrongRail = defineRule<Data>({
  code: 'chip/enable-wrong-rail',
  severity: 'fault',
  reads: 'moment',
  look: (scene) => {
    const readings = new Map(drivenInputs(scene).map((l) => [l.pin, l.reading]));
    return scene.circuit.chips.flatMap((chip) =>
      wrongEnables(scene.circuit, chip).flatMap(({ input, level, outputs, so }): Data[] => {
        const reading = readings.get(input);
        if (input.name === STROBE || reading?.level !== level) return [];
        const { vil, vih } = thresholdsOf(input.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        const limit = level === 'H' ? vil : vih;
        const names = outputs.map((o) => toPin(o.leg));
        return [{ pin: toPin(input.leg), chip: toPart(chip.placed), outputs: names, so, level, measured: reading.volts, limit }];
      }),
    );
  },
  message: ({ pin, chip, outputs, so, level, measured, limit }) => {
    const which = outputs.length > MOST_NAMED ? say`${outputs.length} outputs of ${chip}` : listed(outputs.map(its));
    const are = outputs.length > 1 ? 'are' : 'is';
    const state = so === 'high-impedance' ? `${are} high-impedance (Z)` : `${outputs.length > 1 ? 'stay' : 'stays'} at one level`;
    const needs = level === 'H' ? `low is up to ${inVolts(limit)}` : `high is from ${inVolts(limit)}`;
    return say`${pin} is tied ${level === 'H' ? 'high' : 'low'}: ${inVolts(measured)} (${needs}), so ${which} ${state} whatever the switches. Wire it to ${level === 'H' ? '−' : '+'}.`;
  },
});

/** A memory that lights an LED; its /OE on this rail. */
const bench = (rail: string): string =>
  memoryBench(`wire WOE from j16 to ${rail}\nwire WWE from j15 to +j9\nled LED1 from g23 to g30\nresistor R1 330 from f30 to -j20`);

export const enableAtWrongRailExamples = (): RuleExamples => ({
  bad: { points: 'U1.20', bench: bench('+j12') },
  good: { bench: bench('-j12') },
});
