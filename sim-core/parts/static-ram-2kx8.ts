/** Static RAM 2K × 8 in the 24-pin byte-wide package: it forgets without supply, and takes a byte as fast as it gives one. */
import type { StaticTiming } from './memory/static-ram-behaviour.ts';
import { type StaticSheet, staticRam } from './memory/static-ram-part.ts';

const timing: StaticTiming = {
  access: 150e-9,
  chipEnable: 150e-9,
  outputEnable: 75e-9,
  float: 50e-9,
  source: 'from memory',
  pulseLeast: 90e-9,
  addressSetup: 0,
  addressToEnd: 120e-9,
  dataSetup: 40e-9,
  dataHold: 0,
  writeSource: 'from memory',
};

export const staticRam2kSheet: StaticSheet = {
  id: 'static-ram-2kx8',
  title: 'Static RAM 2K × 8, 24-pin',
  // SOURCES.md S1, S6
  pins: 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CS A10 /OE /WE A9 A8 VCC',
  selects: ['/CS'],
  timing,
  dc: {
    vil: 0.8,
    vih: 2.2,
    leakage: 5e-6,
    releasedLeakage: 5e-6,
    capacitance: 8e-12,
    dataCapacitance: 8e-12,
    high: 4e-3,
    low: { volts: 0.4, amps: 8e-3 },
    working: 85e-3,
    resting: 25e-3,
    source: 'SOURCES.md S6',
  },
};

export const staticRam2k = staticRam(staticRam2kSheet);
