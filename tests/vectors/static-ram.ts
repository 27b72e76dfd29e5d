/** Vectors of static RAMs: writing, and reading what was written. */
import type { StaticSheet } from '../../sim-core/parts/memory/static-ram-part.ts';
import { type Levels, NEAR, readVectors } from './read.ts';
import type { Vector, VectorStep } from './vector.ts';

const activeAt = (select: string): 0 | 1 => (select.startsWith('/') ? 0 : 1);

/** Reading, writing with /OE either way, and what an incomplete write leaves. */
export function staticRamVectors({ selects, timing }: StaticSheet): Vector[] {
  const select: Levels = Object.fromEntries(selects.map((s) => [s, activeAt(s)]));
  const unselect: Levels = { [selects[0]]: 1 - activeAt(selects[0]) };
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

/** Of one with a second select that is active high. */
export const secondSelect: Vector = {
  says: 'CS2 low makes its outputs high-impedance and blocks writes',
  contents: { '0010': '5A' },
  steps: [
    { set: { A: 0x10, '/CS1': 0, CS2: 0, '/OE': 0, '/WE': 1 } },
    { wait: 1e-6 },
    { see: { D: 'Z' } },
    { set: { '/OE': 1, D: 0xff, '/WE': 0 } },
    { wait: 1e-6 },
    { set: { '/WE': 1, D: 'open' } },
    { wait: 1e-6 },
    { set: { '/OE': 0, CS2: 1 } },
    { wait: 1e-6 },
    { see: { D: 0x5a } },
  ],
};
