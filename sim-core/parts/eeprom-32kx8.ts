/** EEPROM 32K × 8 in the 28-pin byte-wide package: pages of 64 bytes and software protection. */
import { type PageSheet, pageEeprom } from './memory/page-eeprom.ts';

export const eeprom32kSheet: PageSheet = {
  id: 'eeprom-32kx8',
  title: 'EEPROM 32K × 8, 28-pin',
  // SOURCES.md S1, S8
  pins: 'A14 A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE A11 A9 A8 A13 /WE VCC',
  read: 'SOURCES.md S9a',
  write: 'SOURCES.md S5',
  // its own levels were not read
  levels: 'SOURCES.md S4, of the 8K × 8',
  page: 64,
  // both from memory
  protection: { first: 0x5555, second: 0x2aaa },
  identification: 0x7fc0,
};

export const eeprom32k = pageEeprom(eeprom32kSheet);
