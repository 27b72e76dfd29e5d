/** Memories against published pin maps and mode tables; the sources, beside each check, are those of SOURCES.md. */
import { describe, expect, test } from 'vitest';
import { PARTS } from '../../sim-core/index.ts';
import { kindOf, mustDo, runVector, specOf } from '../support/part-bench.ts';
import type { VectorStep } from '../vectors/vector.ts';

/** Pin number → name, of the pins that all of one size share. */
const COMMON_24 = {
  // S1, S2, S6
  ...named('1 A7 2 A6 3 A5 4 A4 5 A3 6 A2 7 A1 8 A0 9 D0 10 D1 11 D2 12 GND 13 D3 14 D4 15 D5 16 D6 17 D7 19 A10 22 A9 23 A8 24 VCC'),
};
const COMMON_28 = {
  // S1, S4, S7, S8
  ...named(
    '2 A12 3 A7 4 A6 5 A5 6 A4 7 A3 8 A2 9 A1 10 A0 11 D0 12 D1 13 D2 14 GND 15 D3 16 D4 17 D5 18 D6 19 D7 21 A10 22 /OE 23 A11 24 A9 25 A8 28 VCC',
  ),
};
/** Pin numbers as S11 has them for the 128K × 8; pin 2 is A16 there, and here not connected (from memory). */
const PINS_32 = named(
  '1 NC 2 NC 3 A15 4 A12 5 A7 6 A6 7 A5 8 A4 9 A3 10 A2 11 A1 12 A0 13 D0 14 D1 15 D2 16 GND 17 D3 18 D4 19 D5 20 D6 21 D7 22 /CE 23 A10 24 /OE 25 A11 26 A9 27 A8 28 A13 29 A14 30 NC 31 /WE 32 VCC',
);
const PIN_MAPS: readonly (readonly [id: string, source: string, pins: Readonly<Record<string, string>>])[] = [
  ['mask-rom-2kx8', 'S1', { ...COMMON_24, ...named('18 CS2 20 /CS1 21 /CS3') }],
  ['uv-eprom-2kx8', 'S1', { ...COMMON_24, ...named('18 /CE 20 /OE 21 VPP') }],
  ['eeprom-2kx8', 'S1 as corrected by S2: pin 21 is /WE', { ...COMMON_24, ...named('18 /CE 20 /OE 21 /WE') }],
  ['memory-from-sheet', 'as it comes: the EEPROM 2K × 8, S1, S2', { ...COMMON_24, ...named('18 /CE 20 /OE 21 /WE') }],
  ['static-ram-2kx8', 'S6', { ...COMMON_24, ...named('18 /CS 20 /OE 21 /WE') }],
  ['uv-eprom-8kx8', 'S1', { ...COMMON_28, ...named('1 VPP 20 /CE 26 NC 27 /PGM') }],
  ['eeprom-8kx8', 'S1, S4', { ...COMMON_28, ...named('1 RDY//BUSY 20 /CE 26 NC 27 /WE') }],
  ['static-ram-8kx8', 'S1, S7; pin 20 is the first of two selects', { ...COMMON_28, ...named('1 NC 20 /CS1 26 CS2 27 /WE') }],
  ['eeprom-32kx8', 'S1, S8', { ...COMMON_28, ...named('1 A14 20 /CE 26 A13 27 /WE') }],
  ['eeprom-64kx8', 'S11, pin 2 from memory', PINS_32],
  ['static-ram-32kx8', 'S1, S8', { ...COMMON_28, ...named('1 A14 20 /CS 26 A13 27 /WE') }],
  ['prom-2kx8', 'from memory', { ...COMMON_24, ...named('18 CE3 19 CE2 20 /CE1 21 A10') }],
];

function named(text: string): Record<string, string> {
  const words = text.split(' ');
  return Object.fromEntries(Array.from({ length: words.length / 2 }, (_, i) => [words[2 * i], words[2 * i + 1]]));
}

describe('pin maps', () => {
  test.each(PIN_MAPS)('%s, %s', (id, _source, map) => {
    const pins = kindOf(id).pins(Object.fromEntries(kindOf(id).params.map((p) => [p.name, p.fallback])));
    expect(Object.fromEntries(pins.map((p) => [p.pin, p.name]))).toEqual(map);
  });
  test('a 28-pin memory sits at the bottom of a 32-pin footprint, but for its own pins: pin 2 where pin 4 is (S1, S11)', () => {
    for (const [pin, name] of Object.entries(COMMON_28))
      if (pin !== '28') expect(PINS_32[String(Number(pin) + 2)], `pin ${pin}`).toBe(name);
  });
  test('none is left out', () => {
    expect(
      PARTS.filter((k) => k.group === 'memory')
        .map((k) => k.id)
        .sort(),
    ).toEqual(PIN_MAPS.map(([id]) => id).sort());
  });
  test('a 24-pin memory sits at the bottom of a 28-pin footprint: pin 1 where pin 3 is (S1)', () => {
    for (const [pin, name] of Object.entries(COMMON_24))
      if (!['12', '19', '24'].includes(pin)) expect(COMMON_28[String(Number(pin) + 2)]).toBe(name);
  });
});

/** The modes of an EEPROM: SOURCES.md S2, S4. The byte 5A stands at address 0; what is read afterwards says whether A5 was written. */
describe.each(['eeprom-2kx8', 'eeprom-8kx8', 'eeprom-32kx8', 'eeprom-64kx8'])('operating modes of %s', (id) => {
  const contents = { '000': '5A' };
  const pulse = (ce: number, oe: number | 'high', we: number, seconds: number): VectorStep[] => [
    { set: { A: 0, '/CE': 1, '/OE': 1, '/WE': 1 } },
    { wait: 1e-6 },
    ...(oe === 0 ? [] : [{ set: { D: 0xa5 } }]),
    { set: { '/OE': oe } },
    { wait: 2e-6 },
    { set: { '/CE': ce } },
    { wait: 1e-6 },
    { set: { '/WE': we } },
    { wait: seconds },
    { set: { '/WE': 1 } },
    { wait: 100e-9 },
    { set: { D: 'open' } },
    { wait: 2e-6 },
    { set: { '/CE': 1, '/OE': 1 } },
    { wait: 0.02 },
  ];
  const read = (sees: number): VectorStep[] => [{ set: { A: 0, '/CE': 0, '/OE': 0, '/WE': 1 } }, { wait: 1e-6 }, { see: { D: sees } }];

  test.each([
    ['read', 0, 0, 1, 0x5a],
    ['write', 0, 1, 0, 0xa5],
    ['standby', 1, 0, 1, 0x5a],
    ['write inhibit by /CE high', 1, 1, 0, 0x5a],
    ['write inhibit by /WE high', 0, 1, 1, 0x5a],
    ['write inhibit by /OE low', 0, 0, 0, 0x5a],
  ])('%s: /CE %i, /OE %i, /WE %i', (_mode, ce, oe, we, after) => {
    mustDo(id, { contents, steps: [...pulse(ce, oe, we, 300e-9), ...read(after)] });
  });
  test.each([
    ['standby', { '/CE': 1, '/OE': 0, '/WE': 1 }, 'Z'],
    // ready to write, the pins are inputs, and read as what stands on them: nothing
    ['output disable', { '/CE': 0, '/OE': 1, '/WE': 1 }, 'X'],
    ['output disable', { '/CE': 1, '/OE': 1, '/WE': 1 }, 'Z'],
  ] as const)('%s: high impedance', (_mode, levels, level) => {
    mustDo(id, { contents, steps: [{ set: { A: 0, ...levels } }, { wait: 1e-6 }, { see: { D: level } }] });
  });
  test('chip erase: /CE low, /OE at 12 V, /WE low for 10 ms', () => {
    mustDo(id, { contents, high: 12, steps: [...pulse(0, 'high', 0, 10.1e-3), ...read(0xff)] });
    const { wrong } = runVector(kindOf(id), { says: '', contents, high: 12, steps: [...pulse(0, 'high', 0, 5e-3), ...read(0xff)] });
    expect(wrong.length).toBeGreaterThan(0);
  });
  test('12 V on A9 reaches other bytes, at the end of the addresses; a plan keeps them (S2, S4: at 7E0 and 1FC0)', () => {
    const at = { 'eeprom-2kx8': 0x7e0, 'eeprom-8kx8': 0x1fc0, 'eeprom-32kx8': 0x7fc0, 'eeprom-64kx8': 0xff80 }[id] ?? 0;
    const sim = mustDo(id, {
      high: 12,
      steps: [
        { set: { '/CE': 0, '/OE': 1, '/WE': 1, A: at } },
        { set: { A9: 'high', D: 0x42 } },
        { wait: 2e-6 },
        { set: { '/WE': 0 } },
        { wait: 300e-9 },
        { set: { '/WE': 1 } },
        { wait: 1e-6 },
        { set: { D: 'open' } },
        { wait: 0.02 },
        { set: { '/OE': 0 } },
        { wait: 2e-6 },
        { see: { D: 0x42 } },
        { set: { A9: 1 } },
        { wait: 2e-6 },
        { see: { D: 0xff } },
      ],
    });
    const size = 2 ** (specOf(kindOf(id), { written: 0 }).word?.address.length ?? 0);
    expect(Object.keys(sim.plan().memories.U1 ?? {}).map((a) => Number.parseInt(a, 16))).toEqual([size]);
  });
});
