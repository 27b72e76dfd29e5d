/** Octal bus transceiver: eight lines passed from one side to the other, whichever way, or not at all. */

import { many, RELEASED } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

const side = (to: 'A' | 'B', from: 'A' | 'B') =>
  many(8, (i) => ({
    name: `${to}${i + 1}`,
    of: ['/OE', 'DIR', `${from}${i + 1}`],
    is: (off: number, direction: number, bit: number) => (off || direction !== (to === 'B' ? 1 : 0) ? RELEASED : bit),
  }));

export const octalTransceiver = logicPart({
  id: 'octal-transceiver',
  title: 'Octal bus transceiver, three-state',
  synonyms: ['bus driver', 'bidirectional buffer'],
  // the usual transceiver's pin-out; DIR high: from A to B: SOURCES.md S1
  pins: 'DIR A1 A2 A3 A4 A5 A6 A7 A8 GND B8 B7 B6 B5 B4 B3 B2 B1 /OE VCC',
  strength: 'bus',
  rule: { outputs: [...side('A', 'B'), ...side('B', 'A')] },
  delay: { HC: 9e-9, HCT: 11e-9, LS: 10e-9 },
  supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 90e-3 },
});
