/** Hamming's code of seven bits for four: one memory adds the checks, another corrects one wrong bit. */
import { counted, type DemoTable } from './table.ts';

/** Positions 1 to 7; 1, 2 and 4 hold the parities of the positions that have that bit in their number. */
export const hammingEncoder: DemoTable = {
  id: 'hamming-encoder',
  title: 'Hamming coder',
  description: 'Four data bits become seven, so that any one of them may be changed on the way and is found again by the decoder.',
  inputs: ['d1', 'd2', 'd3', 'd4'],
  outputs: ['c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7'],
  rules: `c3 = d1; c5 = d2; c6 = d3; c7 = d4
c1 = d1 ⊕ d2 ⊕ d4
c2 = d1 ⊕ d3 ⊕ d4
c4 = d2 ⊕ d3 ⊕ d4`,
};

export const hammingDecoder: DemoTable = {
  id: 'hamming-decoder',
  title: 'Hamming decoder',
  description: 'Seven bits come in; four LEDs show the data with one wrong bit corrected, three show which position was wrong, 0 for none.',
  inputs: ['c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7'],
  outputs: ['d1', 'd2', 'd3', 'd4', ...counted('wrong', 3)],
  rules: `wrong0 = c1 ⊕ c3 ⊕ c5 ⊕ c7
wrong1 = c2 ⊕ c3 ⊕ c6 ⊕ c7
wrong2 = c4 ⊕ c5 ⊕ c6 ⊕ c7
position = wrong2..wrong0
d1 = c3 ⊕ (position = 3)
d2 = c5 ⊕ (position = 5)
d3 = c6 ⊕ (position = 6)
d4 = c7 ⊕ (position = 7)`,
};
