/** Vectors of every EEPROM's pins: /OE, either strobe, the filter, the lock-out, clearing the whole chip; and of the one without pages. */
import { type EepromTiming, eeprom2kTiming } from '../../sim-core/parts/memory/timing.ts';
import { readVectors } from './read.ts';
import type { Vector, VectorStep } from './vector.ts';

export const REST = { '/CE': 0, '/OE': 1, '/WE': 1 };
export const load = (address: number, byte: number): VectorStep[] => [
  { set: { ...REST, A: address, D: byte } },
  { wait: 200e-9 },
  { set: { '/WE': 0 } },
  { wait: 200e-9 },
  { set: { '/WE': 1 } },
  { wait: 200e-9 },
];
export const cycle: VectorStep[] = [{ set: { D: 'open' } }, { wait: 0.011 }];
export const read = (address: number, byte: number): VectorStep[] => [
  { set: { A: address, '/OE': 0 } },
  { wait: 1e-6 },
  { see: { D: byte } },
  { set: { '/OE': 1 } },
  { wait: 1e-6 },
];

export function writeVectors(t: EepromTiming): Vector[] {
  return [
    {
      says: 'with the chip enabled long before, /OE alone is waited for, and it is a shorter time',
      contents: { '0000': '3C' },
      steps: [
        { set: { ...REST, A: 0, D: 'open' } },
        { wait: 1e-6 },
        { set: { '/OE': 0 } },
        { wait: t.outputEnable - 5e-9 },
        { see: { D: 'X' } },
        { wait: 10e-9 },
        { see: { D: 0x3c } },
      ],
    },
    {
      says: '/CE ends a write as well as /WE does',
      contents: { '0000': '00' },
      steps: [
        { set: { '/CE': 1, '/OE': 1, '/WE': 0, A: 0, D: 0x42 } },
        { wait: 1e-6 },
        { set: { '/CE': 0 } },
        { wait: 200e-9 },
        { set: { '/CE': 1 } },
        { wait: 200e-9 },
        { set: { '/WE': 1, D: 'open' } },
        { wait: 0.011 },
        { set: { '/CE': 0 } },
        ...read(0, 0x42),
      ],
    },
    {
      says: 'a pulse too short to be noticed, and one with /OE low, store nothing',
      contents: { '0000': '00' },
      steps: [
        { set: { ...REST, A: 0, D: 0x55 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: t.glitch - 2e-9 },
        { set: { '/WE': 1 } },
        { wait: 1e-6 },
        { set: { D: 'open' } },
        { wait: 0.02 },
        ...read(0, 0x00),
        { set: { '/OE': 0 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: 1e-6 },
        { set: { '/WE': 1 } },
        { wait: 0.02 },
        { see: { D: 0x00 } },
      ],
    },
    {
      says: 'for 5 ms after its supply has come up it stores nothing',
      contents: { '0000': '00' },
      steps: [
        { set: { ...REST, A: 0, D: 'open' } },
        { supply: 'off' },
        { wait: 1 },
        { supply: 'on' },
        { wait: 0.004 },
        ...load(0, 0x55),
        ...cycle,
        ...read(0, 0x00),
        ...load(0, 0x55),
        ...cycle,
        ...read(0, 0x55),
      ],
    },
    {
      says: '12 V on /OE and 10 ms on /WE clear the whole chip',
      high: 12,
      contents: { '0000': '00', '0123': '456789' },
      steps: [
        { set: { ...REST, A: 0, '/OE': 'high' } },
        { wait: 1e-5 },
        { set: { '/WE': 0 } },
        { wait: 0.0105 },
        { set: { '/WE': 1 } },
        { wait: 1e-5 },
        { set: { '/OE': 1 } },
        { wait: 1e-5 },
        ...read(0, 0xff),
        ...read(0x124, 0xff),
      ],
    },
  ];
}

const pulse = (seconds: number): VectorStep[] => [
  { wait: 1e-6 },
  { set: { '/WE': 0 } },
  { wait: seconds },
  { set: { '/WE': 1 } },
  { wait: 20e-9 },
  { set: { D: 'open' } },
];

export const wordEepromVectors = (): readonly Vector[] => [
  ...readVectors({ '/CE': 0, '/OE': 0, '/WE': 1 }, { '/CE': 1 }, eeprom2kTiming),
  ...writeVectors(eeprom2kTiming),
  {
    says: 'a byte is stored within a millisecond; until then only the last bit is known, inverted',
    contents: { '000': '1122' },
    steps: [
      { set: { ...REST, A: 1, D: 0x95 } },
      ...pulse(300e-9),
      { set: { '/OE': 0 } },
      { wait: 1e-6 },
      { see: { D7: 'L', D6: 'X', D0: 'X' } },
      { wait: 0.9e-3 },
      { see: { D7: 'L' } },
      { wait: 0.2e-3 },
      { see: { D: 0x95 } },
      { set: { A: 0 } },
      { wait: 1e-6 },
      { see: { D: 0x11 } },
    ],
  },
  {
    says: 'a pulse shorter than its least width leaves the byte uncertain, and one of a few nanoseconds is not noticed',
    contents: { '000': '1122' },
    steps: [
      { set: { ...REST, A: 0, D: 0x95 } },
      ...pulse(80e-9),
      { wait: 2e-3 },
      { set: { '/OE': 0 } },
      { wait: 1e-6 },
      { see: { D: 'X' } },
      { set: { '/OE': 1 } },
      { wait: 1e-6 },
      { set: { A: 1, D: 0x95 } },
      ...pulse(15e-9),
      { wait: 2e-3 },
      { set: { '/OE': 0 } },
      { wait: 1e-6 },
      { see: { D: 0x22 } },
    ],
  },
];
