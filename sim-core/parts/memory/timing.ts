/** The times that a byte-wide EEPROM's data sheet gives, and where ours come from. */

import type { ReadTiming } from './reading.ts';

/** All in seconds unless said otherwise. */
export interface EepromTiming extends ReadTiming {
  readonly addressSetup: number;
  readonly addressHold: number;
  readonly dataSetup: number;
  readonly dataHold: number;
  readonly pulseLeast: number;
  /** absent: the sheet names no longest pulse */
  readonly pulseMost?: number;
  /** pulses shorter than this are filtered out */
  readonly glitch: number;
  /** the internal write cycle, longest */
  readonly cycle: number;
  /** below this supply [V] writes are inhibited, and for `powerUp` after it has been passed */
  readonly writeInhibit: number;
  readonly powerUp: number;
}

export const eeprom2kTiming: EepromTiming = {
  access: 150e-9,
  chipEnable: 150e-9,
  outputEnable: 70e-9,
  float: 50e-9,
  addressSetup: 10e-9,
  addressHold: 50e-9,
  dataSetup: 50e-9,
  dataHold: 10e-9,
  pulseLeast: 100e-9,
  pulseMost: 1000e-9,
  glitch: 20e-9,
  cycle: 1e-3,
  writeInhibit: 3.8,
  powerUp: 5e-3,
  source: 'common practice, no source',
};
