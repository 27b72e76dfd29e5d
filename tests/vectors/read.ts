/** Vectors that all memories share: reading, with its times. */
import type { ReadTiming } from '../../sim-core/parts/memory/read-path.ts';
import type { Vector } from './vector.ts';

export type Levels = Readonly<Record<string, number>>;

/** Nanoseconds before or after the moment that a figure names. */
export const NEAR = 5e-9;

/**
 * Address first, then the enables one by one: unknown until the access time, known after it, off the bus after the float time.
 * on: every input beside address and data as reading needs it; off: one way to leave the bus.
 */
export function readVectors(on: Levels, off: Levels, t: ReadTiming): Vector[] {
  const enabling = '/OE' in off ? t.outputEnable : t.chipEnable;
  return [
    {
      says: 'data are unknown until the access time has run off, and go only when the float time has',
      contents: { '000': '00112233', '010': 'A55A' },
      steps: [
        { set: { A: 0x10, ...on } },
        { wait: 1e-6 },
        { see: { D: 0xa5 } },
        // no sheet seen promises a hold time of the old data above 0: they are unknown from the first moment on
        { set: { A: 0x11 } },
        { wait: NEAR },
        { see: { D: 'X' } },
        { wait: t.access - 2 * NEAR },
        { see: { D: 'X' } },
        { wait: 2 * NEAR },
        { see: { D: 0x5a } },
        { set: { A: 0x02 } },
        { wait: 1e-6 },
        { see: { D: 0x22 } },
        { set: off },
        { wait: t.float - NEAR },
        { see: { D: 'X' } },
        { wait: 2 * NEAR },
        { see: { D: 'Z' } },
        // and back on it
        { set: on },
        { wait: enabling - NEAR },
        { see: { D: 'X' } },
        { wait: 2 * NEAR },
        { see: { D: 0x22 } },
      ],
    },
    {
      says: 'an address and an enable that come together are waited for until the later of their times',
      contents: { '000': '00112233' },
      steps: [
        { set: { A: 0, ...on, ...off } },
        { wait: 1e-6 },
        { set: { ...on, A: 3 } },
        { wait: Math.max(t.access, enabling) - NEAR },
        { see: { D: 'X' } },
        { wait: 2 * NEAR },
        { see: { D: 0x33 } },
      ],
    },
    {
      says: 'an undefined address bit leaves those data bits known on which both bytes agree',
      contents: { '000': '0FF5' },
      steps: [
        { set: { A: 0, ...on } },
        { set: { A0: 'open' } },
        { wait: 1e-6 },
        { see: { D0: 'H', D1: 'X', D2: 'H', D3: 'X', D4: 'X', D7: 'X' } },
      ],
    },
  ];
}
