/** EEPROM 64K × 8 in the 32-pin byte-wide package: pages of 128 bytes and software protection. */
import { type PageSheet, pageEeprom } from './memory/page-eeprom.ts';

export const eeprom64kSheet: PageSheet = {
  id: 'eeprom-64kx8',
  title: 'EEPROM 64K × 8, 32-pin',
  // SOURCES.md S11, of the 128K × 8; that pin 2, its A16, is not connected here is from memory
  pins: 'NC NC A15 A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE A11 A9 A8 A13 A14 NC /WE VCC',
  read: 'SOURCES.md S11, of the 128K × 8',
  times: { outputEnable: 55e-9, float: 55e-9 },
  // its sheet was not seen: page, write times and levels as larger and smaller ones have them
  write: 'from memory',
  levels: 'SOURCES.md S4, of the 8K × 8',
  kin: ', of the 8K and 32K × 8',
  page: 128,
  // both from memory
  protection: { first: 0x5555, second: 0x2aaa },
  identification: 0xff80,
};

export const eeprom64k = pageEeprom(eeprom64kSheet);
