/** Octal buffer: two groups of four inputs passed on to three-state outputs. */

import { many, RELEASED } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

export const octalBuffer = logicPart({
  id: 'octal-buffer',
  title: 'Octal buffer, three-state',
  synonyms: ['buffer gate', 'line driver', 'bus driver', 'tri-state buffer', 'tristate buffer'],
  // the usual octal buffer's pin-out: SOURCES.md S1, S16
  pins: '/1G 1A1 2Y4 1A2 2Y3 1A3 2Y2 1A4 2Y1 GND 2A1 1Y4 2A2 1Y3 2A3 1Y2 2A4 1Y1 /2G VCC',
  strength: 'bus',
  rule: {
    outputs: many(8, (i) => {
      const [group, n] = [i < 4 ? 1 : 2, (i % 4) + 1];
      return { name: `${group}Y${n}`, of: [`/${group}G`, `${group}A${n}`], is: (off: number, a: number) => (off ? RELEASED : a) };
    }),
  },
  delay: { HC: 9e-9, HCT: 11e-9, LS: 12e-9 },
  supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 50e-3 },
});
