/** Octal D register with clear: eight bits taken at a rising edge, all low while /CLR is low. */

import { many } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

export const octalRegisterClear = logicPart({
  id: 'octal-register-clear',
  title: 'Octal D register with clear',
  synonyms: ['flip-flop', 'register', 'D type'],
  // the usual pin-out with outputs beside inputs, pin 1 clears: SOURCES.md S35
  pins: '/CLR Q1 D1 D2 Q2 Q3 D3 D4 Q4 GND CP Q5 D5 D6 Q6 Q7 D7 D8 Q8 VCC',
  strength: 'standard',
  rule: {
    cells: many(8, (i) => ({ bits: 1, of: [`D${i + 1}`], next: (d: number) => d })),
    takes: { at: 'edge', pin: 'CP' },
    clear: '/CLR',
    outputs: many(8, (i) => ({ name: `Q${i + 1}`, of: [], cell: i, is: (q: number) => q })),
  },
  delay: { HC: 15e-9, HCT: 18e-9, LS: 18e-9 },
  supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 27e-3 },
});
