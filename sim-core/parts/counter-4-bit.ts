/** 4-bit binary counter: counts, loads or holds at a rising edge; cleared at once. */

import { many } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

export const counter4Bit = logicPart({
  id: 'counter-4-bit',
  title: '4-bit counter, load and clear',
  synonyms: ['binary counter', 'divider'],
  // the usual synchronous counter's pin-out; clear at once, load at the edge: SOURCES.md S15
  pins: '/MR CP D0 D1 D2 D3 CEP GND /PE CET Q3 Q2 Q1 Q0 TC VCC',
  strength: 'standard',
  rule: {
    cells: [
      {
        bits: 4,
        of: ['/PE', 'CEP', 'CET', 'D0', 'D1', 'D2', 'D3'],
        next: (hold, cep, cet, d0, d1, d2, d3, n) => (!hold ? d0 | (d1 << 1) | (d2 << 2) | (d3 << 3) : cep && cet ? (n + 1) & 15 : n),
      },
    ],
    takes: { at: 'edge', pin: 'CP' },
    clear: '/MR',
    outputs: [
      ...many(4, (i) => ({ name: `Q${i}`, of: [], cell: 0, is: (n: number) => (n >> i) & 1 })),
      { name: 'TC', of: ['CET'], cell: 0, is: (cet: number, n: number) => (cet && n === 15 ? 1 : 0) },
    ],
  },
  delay: { HC: 18e-9, HCT: 20e-9, LS: 18e-9 },
  supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 32e-3 },
});
