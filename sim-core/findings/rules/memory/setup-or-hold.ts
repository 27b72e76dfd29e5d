/** A set-up or hold time of a write that was not kept. */

import type { WriteTime } from '../../../parts/part.ts';
import { inSeconds, say } from '../../../sentence/wording.ts';
import { addressSwitch, DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, type MeasuredWrite, measuredWrite, writtenByte } from '../../write-log.ts';

const TIMES: readonly WriteTime[] = [
  'address-setup',
  'address-hold',
  'data-setup',
  'data-hold',
  'output-enable-setup',
  'output-enable-hold',
];

interface Data extends MeasuredWrite {
  readonly why: WriteTime;
}

export const setupOrHold = defineRule<Data>({
  code: 'memory/setup-or-hold',
  severity: 'fault',
  reads: 'log',
  apart: ({ why }) => why,
  look: ({ events }) => TIMES.flatMap((why) => casesOf(events, why).map((c) => ({ ...measuredWrite(c), why }))),
  message: (data) => {
    const { time, moved, effect, cure } = LATE[data.why];
    const figure = data.measured > 0 ? `was ${inSeconds(data.measured)}` : `was not kept: ${moved}`;
    return say`${data.memory}: the ${time} time ${figure} (at least ${inSeconds(data.limit)}), so ${writtenByte(data)} ${effect}. ${cure}`;
  },
});

interface Late {
  readonly time: string;
  /** what happened at the edge itself */
  readonly moved: string;
  readonly effect: string;
  readonly cure: string;
}

const LATE: Readonly<Record<WriteTime, Late>> = {
  'address-setup': {
    time: 'address set-up',
    moved: 'the address changed while the write pulse began',
    effect: 'may have gone to another address',
    cure: 'Set the address first, then press.',
  },
  'address-hold': {
    time: 'address hold',
    moved: 'the address changed while the write pulse began',
    effect: 'may have gone to another address',
    cure: 'Keep the address until the button is released.',
  },
  'data-setup': {
    time: 'data set-up',
    moved: 'the data changed while the write pulse ended',
    effect: 'is undefined (X)',
    cure: 'Set the data first, then press.',
  },
  'data-hold': {
    time: 'data hold',
    moved: 'the data changed while the write pulse ended',
    effect: 'is undefined (X)',
    cure: 'Keep the data until the button is released.',
  },
  'output-enable-setup': {
    time: '/OE set-up',
    moved: '/OE was not high when the write pulse began',
    effect: 'may not have been stored',
    cure: 'Set /OE high first, then press.',
  },
  'output-enable-hold': {
    time: '/OE hold',
    moved: '/OE was not high when the write pulse ended',
    effect: 'may not have been stored',
    cure: 'Keep /OE high until the button is released.',
  },
};

/** The switch opens as the pulse begins, and the address falls below 2 V after 4.7 kΩ · 6 pF · ln 2.5 = 26 ns. */
const bench = (): string => memoryBench(DATA_5A + writeButton() + addressSwitch('1', '4k7'), 'WA0');

export const setupOrHoldExamples = (): RuleExamples => ({
  bad: {
    points: 'U1',
    bench: bench(),
    script: [
      [
        { do: 'press', part: 'S9' },
        { do: 'set', part: 'S1', pole: 0, closed: false },
      ],
    ],
  },
  good: { bench: bench(), script: [[{ do: 'press', part: 'S9' }], [{ do: 'set', part: 'S1', pole: 0, closed: false }]] },
});
