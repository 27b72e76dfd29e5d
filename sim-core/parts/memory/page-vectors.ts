/** Test vectors of EEPROMs with pages: polling, page, protection, lock-out, clearing the whole chip. */
import type { Vector, VectorStep } from '../part.ts';
import type { EepromTiming } from './timing.ts';
import { readVectors } from './vectors.ts';

const REST = { '/CE': 0, '/OE': 1, '/WE': 1 };
const load = (address: number, byte: number): VectorStep[] => [
  { set: { ...REST, A: address, D: byte } },
  { wait: 200e-9 },
  { set: { '/WE': 0 } },
  { wait: 200e-9 },
  { set: { '/WE': 1 } },
  { wait: 200e-9 },
];
const cycle: VectorStep[] = [{ set: { D: 'open' } }, { wait: 0.011 }];
const read = (address: number, byte: number): VectorStep[] => [
  { set: { A: address, '/OE': 0 } },
  { wait: 1e-6 },
  { see: { D: byte } },
  { set: { '/OE': 1 } },
  { wait: 1e-6 },
];
/** Once more on the bus, and off. */
const poll = (sees: Extract<VectorStep, { see: unknown }>['see']): VectorStep[] => [
  { set: { '/OE': 0 } },
  { wait: 1e-6 },
  { see: sees },
  { set: { '/OE': 1 } },
  { wait: 1e-6 },
];

/** places: the two addresses of the protection sequences; busy: the pin that shows the internal cycle. */
export function pageVectors(t: EepromTiming, places: { readonly first: number; readonly second: number }, busy?: string): Vector[] {
  const show = (level: 'L' | 'Z'): VectorStep[] => (busy ? [{ see: { [busy]: level } }] : []);
  const sequence = (...bytes: readonly number[]): VectorStep[] =>
    bytes.flatMap((byte) => load(byte === 0x55 ? places.second : places.first, byte));
  const protect = sequence(0xaa, 0x55, 0xa0);
  const unprotect = sequence(0xaa, 0x55, 0x80, 0xaa, 0x55, 0x20);
  return [
    ...readVectors({ '/CE': 0, '/OE': 0, '/WE': 1 }, { '/CE': 1 }, t),
    {
      says: 'a byte is stored by the internal cycle; until then the last bit reads inverted and bit 6 alternates',
      contents: { '0000': '1122' },
      steps: [
        { set: REST },
        ...load(1, 0x95),
        ...show('L'),
        { set: { D: 'open' } },
        ...poll({ D7: 'L', D6: 'H', D5: 'X', D0: 'X' }),
        ...poll({ D7: 'L', D6: 'L' }),
        { wait: 0.005 },
        ...poll({ D7: 'L', D6: 'H' }),
        { wait: 0.006 },
        ...show('Z'),
        ...read(1, 0x95),
        ...read(0, 0x11),
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
      says: 'bytes of one page that come within the load time are stored together; one that comes later is not',
      contents: { '0040': '00000000' },
      steps: [
        { set: REST },
        ...load(0x40, 0x01),
        { wait: 140e-6 },
        ...load(0x41, 0x02),
        { wait: 140e-6 },
        ...load(0x42, 0x03),
        { wait: 160e-6 },
        ...load(0x43, 0x04),
        ...cycle,
        ...read(0x40, 0x01),
        ...read(0x41, 0x02),
        ...read(0x42, 0x03),
        ...read(0x43, 0x00),
      ],
    },
    {
      says: 'protected, it stores only what follows the three enabling bytes; six bytes end the protection',
      contents: { '0010': '00' },
      steps: [
        { set: REST },
        ...protect,
        ...cycle,
        ...load(0x10, 0x77),
        ...cycle,
        ...read(0x10, 0x00),
        ...protect,
        ...load(0x10, 0x78),
        ...cycle,
        ...read(0x10, 0x78),
        ...load(0x10, 0x79),
        ...cycle,
        ...read(0x10, 0x78),
        ...unprotect,
        ...cycle,
        ...load(0x10, 0x7a),
        ...cycle,
        ...read(0x10, 0x7a),
        ...read(places.first, 0xff),
        ...read(places.second, 0xff),
      ],
    },
    {
      says: 'a sequence that breaks off was bytes',
      steps: [{ set: REST }, ...sequence(0xaa), ...cycle, ...read(places.first, 0xaa)],
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
