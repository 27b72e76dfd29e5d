/** A write whose address, byte or permission is undefined: a pin that decides it floated or was between the levels. */

import { say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, type WriteData, writeData, writtenByte } from '../../write-log.ts';

const REASONS = ['address-unknown', 'data-unknown', 'output-enable-unknown', 'never-guaranteed-low'] as const;
type Reason = (typeof REASONS)[number];

interface Data extends WriteData {
  readonly why: Reason;
}

export const writeUndefined = defineRule<Data>({
  code: 'memory/write-undefined',
  severity: 'fault',
  reads: 'log',
  apart: ({ why }) => why,
  look: ({ events }) => REASONS.flatMap((why) => casesOf(events, why).map((c) => ({ ...writeData(c), why }))),
  message: (data) => say`${data.memory}: ${BECAUSE[data.why](data)}`,
});

const BECAUSE: Readonly<Record<Reason, (data: Data) => string>> = {
  'address-unknown': ({ byte, address }) =>
    `byte ${byte} was written while its address was undefined (X), ${address}, so every byte it may have reached is undefined (X). Drive every address pin low or high, then write again.`,
  'data-unknown': ({ byte, address }) =>
    `the data at address ${address} was undefined (X), ${byte}, and so are those bits. Drive every data pin low or high, then write again.`,
  'output-enable-unknown': (data) =>
    `/OE was undefined (X) during the write, so ${writtenByte(data)} is undefined (X). Drive /OE high, then write again.`,
  'never-guaranteed-low': (data) =>
    `the write pulse never reached a guaranteed low, so ${writtenByte(data)} is undefined (X). Pull the pulse down to ground, then write again.`,
};

export const writeUndefinedExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench(DATA_5A.replace(/wire WD3.*\n/, '') + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
  good: { bench: memoryBench(DATA_5A + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
});
