/** Test vectors that memories of one manner share: reading with its times, and writing what was read. */
import type { Vector, VectorStep } from '../part.ts';
import type { ReadTiming } from './read-path.ts';
import type { StaticTiming } from './static-ram-behaviour.ts';

type Levels = Readonly<Record<string, number>>;

/** Nanoseconds before or after the moment that a figure names. */
const NEAR = 5e-9;

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

/** A static RAM's: reading, writing with /OE either way, and forgetting. */
export function readWriteVectors({
  select,
  unselect,
  timing,
}: {
  readonly select: Levels;
  readonly unselect: Levels;
  readonly timing: StaticTiming;
}): Vector[] {
  const rest = { ...select, '/OE': 1, '/WE': 1 };
  const write = (address: number, data: number, seconds: number): VectorStep[] => [
    { set: { A: address, D: data } },
    { wait: 1e-6 },
    { set: { '/WE': 0 } },
    { wait: seconds },
    { set: { '/WE': 1 } },
    { wait: NEAR },
    { set: { D: 'open' } },
  ];
  const readBack = (address: number, sees: number | 'X'): VectorStep[] => [
    { set: { A: address, '/OE': 0 } },
    { wait: 1e-6 },
    { see: { D: sees } },
    { set: { '/OE': 1 } },
    { wait: 1e-6 },
  ];
  return [
    ...readVectors({ ...select, '/OE': 0, '/WE': 1 }, unselect, timing),
    {
      says: '/OE makes the outputs high-impedance within the float time and drives them again within its own; in between, the pins read what is on them',
      contents: { '000': '5A' },
      steps: [
        { set: { ...rest, '/OE': 0, A: 0 } },
        { wait: 1e-6 },
        { see: { D: 0x5a } },
        { set: { '/OE': 1 } },
        { wait: timing.float + NEAR },
        { set: { D: 0xc3 } },
        { wait: 1e-6 },
        { see: { D: 0xc3 } },
        { set: { D: 'open' } },
        { set: { '/OE': 0 } },
        { wait: timing.outputEnable - NEAR },
        { see: { D: 'X' } },
        { wait: 2 * NEAR },
        { see: { D: 0x5a } },
      ],
    },
    {
      says: 'it writes with /OE high, and no other address changes',
      contents: { '000': '0102030405060708' },
      steps: [
        { set: rest },
        ...write(3, 0xc6, timing.addressToEnd + NEAR),
        ...readBack(3, 0xc6),
        ...readBack(2, 0x03),
        ...readBack(7, 0x08),
      ],
    },
    {
      says: 'it writes with /OE low, once its own outputs are high-impedance',
      contents: { '000': '0102030405060708' },
      steps: [
        { set: { ...rest, '/OE': 0, A: 4 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: timing.float + NEAR },
        { set: { D: 0x3c } },
        { wait: timing.addressToEnd },
        { set: { '/WE': 1 } },
        { wait: NEAR },
        { set: { D: 'open' } },
        { wait: 1e-6 },
        { see: { D: 0x3c } },
      ],
    },
    {
      says: 'the chip select ends a write as well as /WE does',
      contents: { '000': '00' },
      steps: [
        { set: { ...rest, ...unselect, '/WE': 0, A: 0, D: 0x99 } },
        { wait: 1e-6 },
        { set: select },
        { wait: timing.addressToEnd + NEAR },
        { set: unselect },
        { wait: NEAR },
        { set: { D: 'open', '/WE': 1 } },
        { set: select },
        ...readBack(0, 0x99),
      ],
    },
    {
      says: 'a pulse shorter than its least width leaves the changed bits uncertain',
      contents: { '000': '00' },
      steps: [{ set: rest }, ...write(0, 0xff, timing.pulseLeast - 2 * NEAR), ...readBack(0, 'X')],
    },
    {
      says: 'an address that moves while /WE is low is written too',
      contents: { '000': '0000' },
      steps: [
        { set: { ...rest, A: 0, D: 0x77 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: 1e-6 },
        { set: { A: 1 } },
        { wait: 1e-6 },
        { set: { '/WE': 1 } },
        { wait: NEAR },
        { set: { D: 'open' } },
        ...readBack(0, 0x77),
        ...readBack(1, 0x77),
      ],
    },
  ];
}
