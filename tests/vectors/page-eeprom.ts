/** Vectors of EEPROMs with pages: polling, page, protection. */
import { type PageSheet, pageTimingOf } from '../../sim-core/parts/memory/page-eeprom.ts';
import { hex } from '../../sim-core/units/hex.ts';
import { cycle, load, REST, read, writeVectors } from './eeprom.ts';
import { readVectors } from './read.ts';
import type { Vector, VectorStep } from './vector.ts';

/** Once more on the bus, and off. */
const poll = (sees: Extract<VectorStep, { see: unknown }>['see']): VectorStep[] => [
  { set: { '/OE': 0 } },
  { wait: 1e-6 },
  { see: sees },
  { set: { '/OE': 1 } },
  { wait: 1e-6 },
];

/** Longer than what is filtered, shorter than what a byte takes. */
const knock: VectorStep[] = [{ set: { '/WE': 0 } }, { wait: 60e-9 }, { set: { '/WE': 1 } }, { wait: 200e-9 }];

export function pageVectors(sheet: PageSheet): Vector[] {
  const { page, protection: places, busy } = sheet;
  const timing = pageTimingOf(sheet);
  const show = (level: 'L' | 'Z'): VectorStep[] => (busy ? [{ see: { [busy]: level } }] : []);
  const sequence = (...bytes: readonly number[]): VectorStep[] =>
    bytes.flatMap((byte) => load(byte === 0x55 ? places.second : places.first, byte));
  const at = (address: number) => hex(address, 4);
  const protect = sequence(0xaa, 0x55, 0xa0);
  const unprotect = sequence(0xaa, 0x55, 0x80, 0xaa, 0x55, 0x20);
  return [
    ...readVectors({ '/CE': 0, '/OE': 0, '/WE': 1 }, { '/CE': 1 }, timing),
    ...writeVectors(timing),
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
      says: 'a knock too short to be sure of, right after a byte, leaves that byte as it is; on another address it makes that byte alone uncertain',
      contents: { '0000': '000000' },
      steps: [
        { set: REST },
        ...load(0, 0x5a),
        ...knock,
        ...load(1, 0xa5),
        { set: { A: 2, D: 0xa5 } },
        { wait: 200e-9 },
        ...knock,
        ...cycle,
        ...read(0, 0x5a),
        ...read(1, 0xa5),
        { set: { A: 2, '/OE': 0 } },
        { wait: 1e-6 },
        { see: { D: 'X' } },
        { set: { '/OE': 1 } },
      ],
    },
    {
      says: 'a knock too short to be sure of, with another byte, makes the bits uncertain in which the two differ',
      contents: { '0000': '00' },
      steps: [
        { set: REST },
        ...load(0, 0xf0),
        { set: { D: 0xf1 } },
        { wait: 200e-9 },
        ...knock,
        ...cycle,
        { set: { A: 0, '/OE': 0 } },
        { wait: 1e-6 },
        { see: { D7: 'H', D4: 'H', D3: 'L', D1: 'L', D0: 'X' } },
        { set: { '/OE': 1 } },
      ],
    },
    {
      says: 'bytes of one page that come within the load time are stored together; one that comes later is not',
      contents: { [at(page)]: '00', [at(2 * page - 3)]: '000000' },
      steps: [
        { set: REST },
        ...load(page, 0x01),
        { wait: 140e-6 },
        ...load(2 * page - 1, 0x02),
        { wait: 140e-6 },
        ...load(2 * page - 2, 0x03),
        { wait: 160e-6 },
        ...load(2 * page - 3, 0x04),
        ...cycle,
        ...read(page, 0x01),
        ...read(2 * page - 1, 0x02),
        ...read(2 * page - 2, 0x03),
        ...read(2 * page - 3, 0x00),
      ],
    },
    {
      says: 'a byte for another page leaves what it may have gone to uncertain, and the page itself is stored',
      contents: { [at(page)]: '00', [at(2 * page)]: '00' },
      steps: [
        { set: REST },
        ...load(2 * page - 1, 0x01),
        ...load(page, 0x02),
        ...load(2 * page, 0xff),
        ...cycle,
        ...read(2 * page - 1, 0x01),
        ...read(page, 0x02),
        { set: { A: 2 * page, '/OE': 0 } },
        { wait: 1e-6 },
        { see: { D: 'X' } },
      ],
    },
    {
      says: 'the toggling bit stands still and the last bit reads true once the cycle has ended',
      contents: { '0000': '00' },
      steps: [
        { set: REST },
        ...load(0, 0xd5),
        { set: { D: 'open' } },
        ...poll({ D7: 'L', D6: 'H' }),
        ...poll({ D7: 'L', D6: 'L' }),
        ...cycle,
        ...poll({ D7: 'H', D6: 'H' }),
        ...poll({ D7: 'H', D6: 'H' }),
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
      says: 'an incomplete sequence is plain bytes',
      steps: [{ set: REST }, ...sequence(0xaa), ...cycle, ...read(places.first, 0xaa)],
    },
  ];
}
