/** A figure that keeps its limit with all parts as printed, and not with all of them at their extremes. */

import { inAmps, inVolts, type Ref, say } from '../../../sentence/wording.ts';
import type { BeyondAtExtremes } from '../../../tolerance/at-extremes.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';

interface Data {
  readonly at: Ref;
  readonly what: BeyondAtExtremes['what'];
  /** as printed, and at the worse of the two extremes [A] or [V] */
  readonly nominal: number;
  readonly measured: number;
  readonly limit: number;
}

export const onlyAsPrinted = defineRule<Data>({
  code: 'bench/only-as-printed',
  severity: 'marginal',
  reads: 'marginal',
  role: 'effect',
  apart: ({ what }) => what,
  look: ({ extremes }) => extremes.map(({ at, what, nominal, measured, limit }) => ({ at, what, nominal, measured, limit })),
  message({ at, what, nominal, measured, limit }) {
    const worst = 'with all parts at their extremes';
    if (what === 'led-lit')
      return say`${at} is lit with parts as printed only: ${inAmps(nominal)}, but ${inAmps(measured)} ${worst} (an LED looks lit from ${inAmps(limit)}). Use a smaller series resistor.`;
    if (what === 'level-low' || what === 'level-high')
      return say`${at} is ${what === 'level-low' ? 'low' : 'high'} with parts as printed only: ${inVolts(nominal)}, but ${inVolts(measured)} ${worst} (${what === 'level-low' ? 'low is up to' : 'high is from'} ${inVolts(limit)}). Change the resistors at it, or what loads it.`;
    return say`${at} carries ${inAmps(nominal)} with parts as printed, but ${inAmps(measured)} ${worst} (limit ${inAmps(limit)}). Use larger resistors.`;
  },
});

const sinking = (resistor: string): string =>
  memoryBench(
    `wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nmemory U1 000 00\nled LED1 from g30 to g23\nresistor R1 ${resistor} from f30 to +j20`,
  );

export const onlyAsPrintedExamples = (): RuleExamples => ({
  bad: { points: 'LED1', bench: sinking('2k2') },
  good: { bench: sinking('1k') },
});
