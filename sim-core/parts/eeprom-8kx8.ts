/** EEPROM 8K × 8 in the 28-pin byte-wide package: pages of 64 bytes, software protection, and a pin that shows when it is busy. */
import { type PageSheet, pageEeprom } from './memory/page-eeprom.ts';

export const eeprom8kSheet: PageSheet = {
  id: 'eeprom-8kx8',
  title: 'EEPROM 8K × 8, 28-pin',
  // SOURCES.md S1, S4; pin 1 is this open-drain output on some, and not connected on others
  pins: 'RDY//BUSY A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE A11 A9 A8 NC /WE VCC',
  read: 'SOURCES.md S4',
  write: 'SOURCES.md S4',
  levels: 'SOURCES.md S4',
  page: 64,
  protection: { first: 0x1555, second: 0x0aaa },
  identification: 0x1fc0,
  busy: 'RDY//BUSY',
};

export const eeprom8k = pageEeprom(eeprom8kSheet);
