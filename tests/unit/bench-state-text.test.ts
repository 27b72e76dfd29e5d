/** How a bench is set, in words: its supply and the poles of its switches. */
import { expect, test } from 'vitest';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { benchStateSays } from '../../client/state/bench-state-text.ts';
import { demoPlan } from '../../shared/demo-plans.ts';

const { specimens } = makeBenchModel(demoPlan('greenhouse')!);

test('the poles of one switch from the first on, and the supply', () => {
  const switches = { S1: [false, true, true, false, false] };
  expect(benchStateSays({ specimens, supplies: [{ on: true }], switches })).toBe('supply on, switches 01100');
  expect(benchStateSays({ specimens, supplies: [{ on: false }], switches: {} })).toBe('supply off, switches 00000');
});

test('several supplies are counted, several switches named, buttons left out', () => {
  const s1 = specimens.find((s) => s.part.id === 'S1')!;
  const named = (id: string, momentary: boolean) => ({
    ...s1,
    part: { ...s1.part, id },
    contacts: s1.contacts.slice(0, 2).map((c) => ({ ...c, momentary })),
  });
  const two = { specimens: [named('S2', false), named('S3', true), named('S4', false)], switches: { S2: [true, false], S4: [true, true] } };
  expect(benchStateSays({ ...two, supplies: [{ on: true }, { on: false }] })).toBe('1 of 2 supplies on, S2 10, S4 11');
  expect(benchStateSays({ specimens: [], supplies: [], switches: {} })).toBe('no supply');
});
