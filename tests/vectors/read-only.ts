/** Vectors of memories that are made with their contents, or take them once: the mask ROM and the PROM. */
import { maskRomTiming } from '../../sim-core/parts/mask-rom-2kx8.ts';
import type { Level } from '../../sim-core/parts/part.ts';
import { promTiming } from '../../sim-core/parts/prom-2kx8.ts';
import { readVectors } from './read.ts';
import type { Vector, VectorStep } from './vector.ts';

const made = { '/CS1': 0, '/CS3': 0, CS2: 1 };

export const maskRom2kVectors = (): readonly Vector[] => [
  ...readVectors(made, { CS2: 0 }, maskRomTiming),
  {
    says: 'one inactive select makes its outputs high-impedance',
    contents: { '000': '00' },
    steps: [
      { set: { A: 0, ...made, '/CS3': 1 } },
      { wait: 1e-6 },
      { see: { D: 'Z' } },
      { set: { '/CS3': 0 } },
      { wait: 1e-6 },
      { see: { D: 0 } },
    ],
  },
  ...readVectors({ '/CS1': 0, '/CS3': 0, '/CS2': 0 }, { '/CS2': 1 }, maskRomTiming).map((v) => ({
    ...v,
    says: `made with pin 18 active low: ${v.says}`,
    params: { select: 'low' },
  })),
];

const on = { '/CE1': 0, CE2: 1, CE3: 1 };
const blow = (address: number, pin: string, seconds: number): VectorStep[] => [
  { set: { A: address, '/CE1': 'high' } },
  { wait: 10e-6 },
  { set: { [pin]: 'high' } },
  { wait: seconds },
  { set: { [pin]: 'open' } },
  { wait: 10e-6 },
  { set: { '/CE1': 0 } },
];
const read = (address: number, sees: number | Level): VectorStep[] => [
  { set: { ...on, A: address } },
  { wait: 1e-6 },
  { see: { D: sees } },
];

export const promVectors = (): readonly Vector[] => [
  ...readVectors(on, { CE2: 0 }, promTiming),
  {
    says: 'unprogrammed it reads 0; 20 V on one output, with /CE1 as high, programs that bit to 1 permanently',
    high: 20,
    steps: [
      { set: { ...on, A: 3 } },
      { wait: 1e-6 },
      { see: { D: 0 } },
      ...blow(3, 'D5', 60e-6),
      ...read(3, 0x20),
      ...blow(3, 'D0', 60e-6),
      ...read(3, 0x21),
      ...read(2, 0),
    ],
  },
  {
    says: 'half a pulse leaves the bit uncertain',
    high: 20,
    steps: [{ set: { ...on, A: 0 } }, ...blow(0, 'D1', 25e-6), { set: on }, { wait: 1e-6 }, { see: { D1: 'X', D0: 'L' } }],
  },
  {
    says: 'without the high voltage on /CE1 nothing happens',
    high: 20,
    steps: [
      { set: { '/CE1': 1, CE2: 1, CE3: 1, A: 0 } },
      { wait: 10e-6 },
      { set: { D1: 'high' } },
      { wait: 60e-6 },
      { set: { D1: 'open' } },
      { wait: 10e-6 },
      ...read(0, 0),
    ],
  },
];
