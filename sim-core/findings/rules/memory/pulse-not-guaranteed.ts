/** A write pulse that keeps its limits with the parts as drawn, but not when tolerances, supply and thresholds are at their worst together. */

import { inSeconds, type Ref, say, specimen, times, type Wording } from '../../../sentence/wording.ts';
import type { Marginals } from '../../../tolerance/marginal.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';

interface Data {
  readonly memory: Ref;
  readonly button: Ref;
  /** the part that matters most, and the figure, value and unit with which it does */
  readonly part?: Ref;
  readonly figure?: string;
  readonly value?: number;
  readonly unit?: string;
  readonly width: Marginals['pulses'][number]['what'];
  /** at worst, as drawn, and the limit [s] */
  readonly measured: number;
  readonly nominal: number;
  readonly limit: number;
  readonly source: string;
}

export const pulseNotGuaranteed = defineRule<Data>({
  code: 'memory/pulse-not-guaranteed',
  severity: 'marginal',
  reads: 'marginal',
  apart: ({ width }) => width,
  look: ({ pulses }) =>
    pulses.map(({ at, what, button = '', worst, nominal, limit, source, dominant }) => ({
      memory: { kind: 'part', id: at.id },
      button: { kind: 'part', id: button },
      ...(dominant
        ? { part: { kind: 'part', id: dominant.part }, figure: dominant.figure, value: dominant.value, unit: dominant.unit }
        : {}),
      width: what,
      measured: worst,
      nominal,
      limit,
      source,
    })),
  message: (data) => {
    const { memory, button, width, measured, nominal, limit } = data;
    return width === 'pulse-width-guaranteed'
      ? say`${memory}: the guaranteed width of the write pulse from ${button} is ${inSeconds(nominal)} nominal, but ${inSeconds(measured)} in the worst case (at least ${inSeconds(limit)}).${dominant(data)} Use a capacitor ${times(limit / measured)} larger, or a larger resistor.`
      : say`${memory}: the maximum width of the write pulse from ${button} is ${inSeconds(nominal)} nominal, but ${inSeconds(measured)} in the worst case (its data sheet gives at most ${inSeconds(limit)}).${dominant(data)} Use a capacitor ${times(measured / limit)} smaller, or a smaller resistor.`;
  },
});

function dominant({ part, figure = '', value = 0, unit = '' }: Data): Wording {
  return part ? say` The largest contribution is ${specimen(part, figure, value, unit)}.` : [];
}

export const pulseNotGuaranteedExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench(DATA_5A + writeButton('1n')) },
  good: { bench: memoryBench(DATA_5A + writeButton('1.5n')) },
});
