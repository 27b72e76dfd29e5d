/** EEPROM 2K × 8 in the 24-pin byte-wide package: written byte by byte, electrically, in its socket. */

import { USUAL_DC } from './memory/data-sheet.ts';
import type { EepromTraits } from './memory/eeprom.ts';
import { A9_MARK, eepromPart, endurance, mostHigh, OE_MARK } from './memory/eeprom-part.ts';
import { eeprom2kTiming as timing, writeTimeFigures } from './memory/timing.ts';

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
  dc: { ...USUAL_DC, working: 30e-3, typical: { working: 8e-3 }, resting: 2e-3, source: PRACTICE },
  mostSupply: { name: 'supply, absolute most', value: 7, unit: 'V', source: 'SOURCES.md S3' },
  figures: [
    { name: 'access time', value: timing.access, unit: 's', source: timing.source },
    { name: 'write pulse, least', value: timing.pulseLeast, unit: 's', source: timing.source },
    { name: 'write pulse, most', value: timing.pulseMost ?? 0, unit: 's', source: timing.source },
    ...writeTimeFigures(timing),
    { name: 'write cycle, most', value: timing.cycle, unit: 's', source: timing.source },
  ],
});
