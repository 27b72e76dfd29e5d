/** The times that a byte-wide EEPROM's data sheet gives, and where ours come from. */
import type { Figure, WriteTime } from '../part.ts';
import type { ReadTiming } from './read-path.ts';

/** All in seconds unless said otherwise. */
export interface EepromTiming extends ReadTiming {
  readonly least: Readonly<Record<WriteTime, number>>;
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

const NAMES: Readonly<Record<WriteTime, string>> = {
  'address-setup': 'address set-up',
  'address-hold': 'address hold',
  'data-setup': 'data set-up',
  'data-hold': 'data hold',
  'output-enable-setup': 'output enable set-up',
  'output-enable-hold': 'output enable hold',
};

/** The times around the write pulse as figures of a part. */
export const writeTimeFigures = ({ least, source }: EepromTiming): Figure[] =>
  (Object.keys(NAMES) as WriteTime[]).map((time) => ({ name: NAMES[time], value: least[time], unit: 's', source }));

export const eeprom2kTiming: EepromTiming = {
  access: 150e-9,
  chipEnable: 150e-9,
  outputEnable: 70e-9,
  float: 50e-9,
  least: {
    'address-setup': 10e-9,
    'address-hold': 50e-9,
    'data-setup': 50e-9,
    'data-hold': 10e-9,
    'output-enable-setup': 10e-9,
    'output-enable-hold': 10e-9,
  },
  pulseLeast: 100e-9,
  pulseMost: 1000e-9,
  glitch: 20e-9,
  cycle: 1e-3,
  writeInhibit: 3.8,
  powerUp: 5e-3,
  source: 'common practice, no source',
};
