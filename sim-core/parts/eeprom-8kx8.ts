/** EEPROM 8K × 8 in the 28-pin byte-wide package: pages of 64 bytes, software protection, and a pin that shows when it is busy. */
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

const timing = pageTiming('SOURCES.md S4');
const protection = { first: 0x1555, second: 0x0aaa } as const;

export const eeprom8k = memoryPart({
  id: 'eeprom-8kx8',
  title: 'EEPROM 8K × 8, 28-pin',
  // SOURCES.md S1, S4; pin 1 is an open-drain output on some, not connected on others
  pins: 'RDY//BUSY A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE A11 A9 A8 NC /WE VCC',
  params: writtenBefore,
  toRead: { '/CE': 'L', '/OE': 'L', '/WE': 'H' },
  writable: true,
  moreOutputs: ['RDY//BUSY'],
  marks: farAbove,
  supplyMarks: pagedMarks(timing),
  dc: pageDc,
  endurance,
  figures: pageFigures(timing, 'SOURCES.md S4', 'SOURCES.md S4'),
  vectors: pageVectors(timing, protection, 'RDY//BUSY'),
  start: startPaged(timing, { protection, busyOutput: 8, identification: 0x1fc0 }),
});
