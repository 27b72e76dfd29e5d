/** Static RAM 32K × 8 in the 28-pin byte-wide package. */
import { memoryPart } from './memory/sheet.ts';
import { STATIC_MARKS, type StaticTiming, startStatic, staticFigures } from './memory/static.ts';
import { readWriteVectors } from './memory/vectors.ts';

const timing: StaticTiming = {
  access: 70e-9,
  chipEnable: 70e-9,
  outputEnable: 35e-9,
  float: 25e-9,
  source: 'from memory',
  pulseLeast: 50e-9,
  addressSetup: 0,
  addressToEnd: 60e-9,
  dataSetup: 30e-9,
  dataHold: 0,
  writeSource: 'SOURCES.md S8',
};

export const staticRam32k = memoryPart({
  id: 'static-ram-32kx8',
  title: 'Static RAM 32K × 8, 28-pin',
  // SOURCES.md S1, S8
  pins: 'A14 A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CS A10 /OE A11 A9 A8 A13 /WE VCC',
  toRead: { '/CS': 'L', '/OE': 'L', '/WE': 'H' },
  writable: true,
  supplyMarks: STATIC_MARKS,
  dc: {
    vil: 0.8,
    vih: 2.2,
    leakage: 1e-6,
    releasedLeakage: 1e-6,
    capacitance: 8e-12,
    dataCapacitance: 10e-12,
    high: 1e-3,
    low: { volts: 0.4, amps: 2.1e-3 },
    working: 15e-3,
    resting: 3e-3,
    source: 'from memory',
  },
  figures: staticFigures(timing),
  vectors: readWriteVectors({ select: { '/CS': 0 }, unselect: { '/CS': 1 }, timing }),
  start: (bench, { address, data, enable }, contents) =>
    startStatic(
      bench,
      { address, data, select: [enable('/CS')], outputEnable: enable('/OE'), writeEnable: enable('/WE') },
      timing,
      contents,
    ),
});
