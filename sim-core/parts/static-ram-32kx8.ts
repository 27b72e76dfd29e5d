/** Static RAM 32K × 8 in the 28-pin byte-wide package. */
import type { StaticTiming } from './memory/static-ram-behaviour.ts';
import { type StaticSheet, staticRam } from './memory/static-ram-part.ts';

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

export const staticRam32kSheet: StaticSheet = {
  id: 'static-ram-32kx8',
  title: 'Static RAM 32K × 8, 28-pin',
  // SOURCES.md S1, S8
  pins: 'A14 A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CS A10 /OE A11 A9 A8 A13 /WE VCC',
  selects: ['/CS'],
  timing,
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
};

export const staticRam32k = staticRam(staticRam32kSheet);
