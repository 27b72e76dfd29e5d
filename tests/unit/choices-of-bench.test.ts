/** What a build was asked for is read back from the bench that it made. */
import { expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { type BuildRequest, buildPlan, choicesOfBench } from '../../sim-core/index.ts';

const wish = (over: Partial<BuildRequest>): BuildRequest => {
  const { outputs = 6 } = { outputs: over.outputs?.length };
  return {
    title: 'Asked',
    inputs: ['a', 'b'],
    outputs: Array.from({ length: outputs }, (_, i) => ({ name: `o${i}` })),
    rows: [0, 1, 2, 3],
    memory: 'eeprom-2kx8',
    byHand: false,
    show: 'leds',
    buffered: true,
    amps: 0.005,
    ...over,
  };
};
const eight = Array.from({ length: 8 }, (_, i) => ({ name: `o${i}` }));

test.each<[string, Partial<BuildRequest>, object]>([
  ['LEDs in a row on a buffer', {}, { show: 'leds', arrangement: 'row', buffered: true }],
  ['LEDs in a row on the memory itself', { buffered: false }, { show: 'leds', arrangement: 'row', buffered: false }],
  ['a cell', { arrangement: 'cell' }, { show: 'leds', arrangement: 'cell' }],
  ['a ring', { arrangement: 'ring', outputs: eight }, { show: 'leds', arrangement: 'ring' }],
  ['a digit', { show: 'digit', memory: 'eeprom-8kx8' }, { show: 'digit', memory: 'eeprom-8kx8' }],
  ['a digit of outputs that are active low', { show: 'digit', outputs: eight.map((o) => ({ ...o, activeLow: true })) }, { show: 'digit' }],
  ['a bar', { show: 'bar', buffered: false }, { show: 'bar', buffered: false }],
  ['loads', { show: 'loads' }, { show: 'loads' }],
])('%s', (_, asked, has) => {
  const built = buildPlan(wish(asked));
  if (!built.ok) throw new Error(built.failure.says);
  expect(choicesOfBench(built.value)).toMatchObject({ memory: 'eeprom-2kx8', ...has });
});

test('a bench without LEDs for its outputs says only which memory it has', () => {
  const { wanted, ...plan } = demoPlan('greenhouse')!;
  const outputs = wanted!.outputs.map(({ led: _, ...o }, i) => ({ ...o, name: `nobody ${i}` }));
  expect(choicesOfBench({ ...plan, wanted: { ...wanted!, outputs } })).toEqual({ memory: 'eeprom-2kx8' });
});
