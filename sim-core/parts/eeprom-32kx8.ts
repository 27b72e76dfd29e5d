/** EEPROM 32K × 8 in the 28-pin byte-wide package: pages of 64 bytes and software protection. */
import {
  endurance,
  farAbove,
  pageDc,
  pagedMarks,
  pageFigures,
  pageTiming,
  pageVectors,
  startPaged,
  writtenBefore,
} from './memory/page-eeprom.ts';
import { memoryPart } from './memory/sheet.ts';

const timing = pageTiming('SOURCES.md S5');
/** From memory. */
const protection = { first: 0x5555, second: 0x2aaa } as const;

export const eeprom32k = memoryPart({
  id: 'eeprom-32kx8',
  title: 'EEPROM 32K × 8, 28-pin',
  // SOURCES.md S1, S8
  pins: 'A14 A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE A11 A9 A8 A13 /WE VCC',
  params: writtenBefore,
  toRead: { '/CE': 'L', '/OE': 'L', '/WE': 'H' },
  writable: true,
  marks: farAbove,
  supplyMarks: pagedMarks(timing),
  // its sheet's levels were not read; those of the 8K × 8
  dc: { ...pageDc, source: 'SOURCES.md S4, the 8K × 8' },
  endurance,
  figures: pageFigures(timing, 'SOURCES.md S9a', 'SOURCES.md S5'),
  vectors: pageVectors(timing, protection),
  // where its 64 more bytes appear: from memory
  start: startPaged(timing, { protection, identification: 0x7fc0 }),
});
