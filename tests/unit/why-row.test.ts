/** Why a memory reads this row and not that one: each bit with its input, its volts and its pole, and what holds the first bit that differs. */
import { expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { readQuestion } from '../../sim-core/index.ts';
import { askable, askWhy } from '../support/asked-why.ts';
import { start } from '../support/bench.ts';

const greenhouse = demoPlan('greenhouse')!;
const at = (poles: string, plan: Plan = greenhouse) =>
  start({ ...plan, switches: { ...plan.switches, PS1: [true], S1: [...poles].map((c) => c === '1') } }, { still: true });

test('the row is said with every bit, its input and its pole; the other address pins in one sentence', () => {
  const said = askWhy(at('01100'), 'U1');
  expect(said[0]).toBe('The address pins of memory U1 read 0x006, row 01100.');
  expect(said[1]).toBe('Input hot: U1 pin 8 (A0) is low at 0 V, and switch hot (S1 pole 1) is open.');
  expect(said[2]).toMatch(/^Input \S+: U1 pin 7 \(A1\) is high at 5 V, and switch \S+ \(S1 pole 2\) is closed\.$/);
  expect(said).toHaveLength(7);
  expect(said[6]).toMatch(/ are low, and no input of the table sets them\.$/);
});

test('of a row that was asked for, the first bit that differs is followed to its switch', () => {
  const said = askWhy(at('01100'), 'U1 row 01110');
  expect(said[1]).toMatch(
    /^The first bit that differs from 01110 is input \w+, U1 pin 5 \(A3\): it is low at 0 V and would have to be high\.$/,
  );
  expect(said[2]).toMatch(/^U1 pin 5 \(A3\) is low because switch \w+ \(S1 pole 4\) is open\./);
  expect(askWhy(at('01100'), 'U1 row 01100')[1]).toBe('That is what was asked: 01100.');
});

test('an address is asked for by 0x', () => {
  expect(askWhy(at('01100'), 'U1 row 0x007')[1]).toMatch(/^The first bit that differs from 0x007 is input hot, U1 pin 8 \(A0\)/);
});

test('swapped address wires are named, each with the pole that it should be at', () => {
  const { wires } = greenhouse;
  const sim = at('00000');
  const toPin = (name: string) => {
    const leg = sim.circuit.chipById.get('U1')!.inputs.find((i) => i.name === name)!.leg;
    return sim.circuit.layout.ends.find((e) => e.strip === leg.strip && e.wire.colour !== 'black')!;
  };
  const [a, b] = [toPin('A0'), toPin('A1')];
  const swapped = wires.map((w) =>
    w.id === a.wire.id ? { ...w, [a.end]: b.wire[b.end] } : w.id === b.wire.id ? { ...w, [b.end]: a.wire[a.end] } : w,
  );
  const said = askWhy(at('01000', { ...greenhouse, wires: swapped }), 'U1 row 01000').join('\n');
  expect(said).toMatch(/U1 pin 8 \(A0\) is wired to switch \w+ \(S1 pole 2\) instead of switch hot \(S1 pole 1\)/);
});

test('without supply there is no row', () => {
  const said = askWhy(start({ ...greenhouse, switches: { ...greenhouse.switches, PS1: [false] } }, { still: true }), 'U1 row');
  expect(said[0]).toBe('Memory U1 reads no row.');
  expect(said.join('\n')).toMatch(/has no supply/);
});

test('a row of another length is no question', () => {
  const question = readQuestion('U1 row 011', askable(at('00000')));
  expect(!question.ok && question.failure.says).toMatch(/^"why U1 row 011" is not a question that can be answered\./);
});
