/** 3-to-8 decoder: while it is enabled, the output that A, B and C number is low; all others are high. */

import { HIGH, LOW, many } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

export const decoder3To8 = logicPart({
  id: 'decoder-3-to-8',
  title: '3-to-8 decoder',
  synonyms: ['demultiplexer', 'demux', 'address decoder', '1-of-8'],
  // the usual decoder's pin-out: SOURCES.md S1, S17
  pins: 'A B C /G2A /G2B G1 /Y7 GND /Y6 /Y5 /Y4 /Y3 /Y2 /Y1 /Y0 VCC',
  strength: 'standard',
  rule: {
    outputs: many(8, (n) => ({
      name: `/Y${n}`,
      of: ['A', 'B', 'C', '/G2A', '/G2B', 'G1'],
      is: (a: number, b: number, c: number, offA: number, offB: number, on: number) =>
        on && !offA && !offB && (a | (b << 1) | (c << 2)) === n ? LOW : HIGH,
    })),
  },
  delay: { HC: 13e-9, HCT: 17e-9, LS: 22e-9 },
  supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 10e-3 },
});
