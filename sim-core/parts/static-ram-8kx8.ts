/** Static RAM 8K × 8 in the 28-pin byte-wide package, with a second chip select that is active high. */
import type { StaticTiming } from './memory/static-ram-behaviour.ts';
import { type StaticSheet, staticRam } from './memory/static-ram-part.ts';

const timing: StaticTiming = {
  access: 100e-9,
  chipEnable: 100e-9,
  outputEnable: 50e-9,
  float: 35e-9,
  source: 'from memory',
  pulseLeast: 60e-9,
  addressSetup: 0,
  addressToEnd: 80e-9,
  dataSetup: 40e-9,
  dataHold: 0,
  writeSource: 'from memory',
};

export const staticRam8kSheet: StaticSheet = {
  id: 'static-ram-8kx8',
  title: 'Static RAM 8K × 8, 28-pin',
  // SOURCES.md S1, S7
  pins: 'NC A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CS1 A10 /OE A11 A9 A8 CS2 /WE VCC',
  selects: ['/CS1', 'CS2'],
  timing,
  dc: {
    vil: 0.8,
    vih: 2.2,
    leakage: 2e-6,
    releasedLeakage: 2e-6,
    capacitance: 5e-12,
    dataCapacitance: 7e-12,
    high: 1e-3,
    low: { volts: 0.4, amps: 2.1e-3 },
    working: 15e-3,
    resting: 3e-3,
    source: 'SOURCES.md S7',
  },
};

export const staticRam8k = staticRam(staticRam8kSheet);
