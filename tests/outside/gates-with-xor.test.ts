/** What a memory replaces, beside the textbook forms of the full adder and of even parity. */
import { expect, test } from 'vitest';
import { formsOf, gatesFor, minimise, printForm, tableOfWords } from '../../sim-core/index.ts';

/** word: of a row, bit i of which is input i */
const formed = (inputs: readonly string[], outputs: readonly string[], word: (row: number) => number) => {
  const table = tableOfWords(
    inputs,
    outputs,
    Array.from({ length: 2 ** inputs.length }, (_, row) => word(row)),
  );
  if (!table.ok) throw new Error(table.failure.says);
  const forms = formsOf(
    table.value,
    outputs.map((_, o) => minimise(table.value, o)),
  );
  return { says: forms.map((f) => printForm(f, inputs, 'textbook').join(' ')), count: gatesFor(forms, 2) };
};
const onesIn = (row: number): number => row.toString(2).replaceAll('0', '').length;

// M. M. Mano, Digital Design, chapter 4, full adder (cited, from memory): S = x ⊕ y ⊕ z, C = xy + xz + yz; two half adders and an OR make it in five gates
test('a full adder: the sum by two XOR gates, the carry as the sum of three products', () => {
  const { says, count } = formed(['z', 'y', 'x'], ['S', 'C'], onesIn);
  expect(says).toEqual(['x ⊕ y ⊕ z', 'y·z + x·z + x·y']);
  expect(count.gates).toEqual({ inverters: 0, and2: 3, and4: 0, or2: 2, or4: 0, xor2: 2 });
  // more than the five of the circuit of three levels: the page says that such a one may be smaller
  expect(count.gateCount).toBe(7);
});

// the same, chapter 3, parity generator and checker: even parity of n bits takes n − 1 XOR gates of two inputs
test('parity of four bits: three XOR gates in one package, for eight products of four letters', () => {
  const { says, count } = formed(['d', 'c', 'b', 'a'], ['P'], (row) => onesIn(row) & 1);
  expect(says).toEqual(['a ⊕ b ⊕ c ⊕ d']);
  expect([count.gateCount, count.packages, count.gates.xor2]).toEqual([3, 1, 3]);
});

// the sum of two numbers bit by bit: S0 = a0 ⊕ b0, S1 = a1 ⊕ b1 ⊕ (a0·b0), carry out as any two-level form
test('two numbers of two bits: each digit of the sum is XOR of its bits and the carry', () => {
  const { says } = formed(['b0', 'b1', 'a0', 'a1'], ['S0', 'S1'], (row) => ((row & 3) + (row >> 2)) & 3);
  expect(says).toEqual(['a0 ⊕ b0', 'a1 ⊕ b1 ⊕ (a0·b0)']);
});
