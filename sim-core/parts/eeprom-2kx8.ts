/** EEPROM 2K × 8 in the 24-pin byte-wide package: written byte by byte, electrically, in its socket. */

import { USUAL_DC } from './memory/data-sheet.ts';
import type { EepromTraits } from './memory/eeprom.ts';
import { A9_MARK, eepromPart, endurance, mostHigh, OE_MARK } from './memory/eeprom-part.ts';
import { eeprom2kTiming as timing, writeTimeFigures } from './memory/timing.ts';
import { readVectors } from './memory/vectors.ts';
import { writeVectors } from './memory/write-vectors.ts';
import type { Vector, VectorStep } from './part.ts';

const PRACTICE = 'common practice, no source';

/** 12 V on /OE clears the chip, on A9 it reaches 32 more bytes: SOURCES.md S2. */
const traits: EepromTraits = {
  timing,
  endurance: endurance(PRACTICE),
  chipErase: { mark: OE_MARK, pulse: 10e-3 },
  identification: { mark: A9_MARK, at: 0x7e0, bytes: 32 },
};

export const eeprom2k = eepromPart(traits, mostHigh('SOURCES.md S2'), {
  id: 'eeprom-2kx8',
  title: 'EEPROM 2K × 8, 24-pin',
  synonyms: ['E2PROM'],
  // pins 1 to 24: SOURCES.md S1, S2 (pin 21 is /WE, as S2 confirms)
  pins: 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE /WE A9 A8 VCC',
  dc: { ...USUAL_DC, working: 30e-3, resting: 2e-3, source: PRACTICE },
  mostSupply: { name: 'supply, absolute most', value: 7, unit: 'V', source: 'SOURCES.md S3' },
  figures: [
    { name: 'access time', value: timing.access, unit: 's', source: timing.source },
    { name: 'write pulse, least', value: timing.pulseLeast, unit: 's', source: timing.source },
    { name: 'write pulse, most', value: timing.pulseMost ?? 0, unit: 's', source: timing.source },
    ...writeTimeFigures(timing),
    { name: 'write cycle, most', value: timing.cycle, unit: 's', source: timing.source },
  ],
});

const REST = { '/CE': 0, '/OE': 1, '/WE': 1 };
const pulse = (seconds: number): VectorStep[] => [
  { wait: 1e-6 },
  { set: { '/WE': 0 } },
  { wait: seconds },
  { set: { '/WE': 1 } },
  { wait: 20e-9 },
  { set: { D: 'open' } },
];

export const eeprom2kVectors = (): readonly Vector[] => [
  ...readVectors({ '/CE': 0, '/OE': 0, '/WE': 1 }, { '/CE': 1 }, timing),
  ...writeVectors(timing),
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
