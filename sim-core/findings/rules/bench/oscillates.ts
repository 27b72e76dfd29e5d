/** Chips that move themselves or each other in a loop that never rests: an oscillator, built on purpose or by mistake; what the bench shows is one moment of many. */

import { inSeconds, listed, type Ref, say, type Wording } from '../../../sentence/wording.ts';
import { type RuleExamples, ring } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';

interface Loop {
  readonly chips: readonly Ref[];
  readonly resistors: readonly Ref[];
  readonly capacitors: readonly Ref[];
  /** [s] */
  readonly period: number;
  readonly meant: boolean;
}

const part = (id: string): Ref => ({ kind: 'part', id });

export const benchOscillates = defineRule<Loop>({
  code: 'bench/oscillates',
  severity: 'fault',
  severityOf: ({ meant }) => (meant ? 'marginal' : 'fault'),
  reads: 'moment',
  look: ({ readings }) =>
    (readings.restless ?? []).map(({ chips, resistors, capacitors, period, meant }) => ({
      chips: chips.map(part),
      resistors: resistors.map(part),
      capacitors: capacitors.map(part),
      period,
      meant,
    })),
  message: (loop) =>
    loop.meant
      ? say`${listed(loop.chips)} ${loop.chips.length === 1 ? 'oscillates' : 'oscillate'} and never ${loop.chips.length === 1 ? 'rests' : 'rest'}: the period is ${inSeconds(loop.period)}, set by ${setBy(loop)}. What you see is one moment of many.`
      : say`${listed(loop.chips)} ${loop.chips.length === 1 ? 'drives itself' : 'drive each other'} in a loop that never rests: the period is ${inSeconds(loop.period)}, set by ${setBy(loop)}. Break the loop from output to input.`,
});

const setBy = ({ chips, resistors, capacitors }: Loop): Wording =>
  capacitors.length > 0 ? listed([...resistors, ...capacitors]) : chips.length === 1 ? ['its own delay'] : ['their delays'];

export const benchOscillatesExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: ring() },
  good: { bench: ring().replace('FFFE', 'FFFF') },
});
