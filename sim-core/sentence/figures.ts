/** Figures with their units, as sentences print them: "31 mA", "0.8 V", "4.7 kΩ". */
import { siFormat } from '../units/quantity.ts';

export const inAmps = (amps: number): string => siFormat(amps, 'A');
export const inOhms = (ohms: number): string => siFormat(ohms, 'Ω');
export const inFarads = (farads: number): string => siFormat(farads, 'F');
export const inSeconds = (seconds: number): string => siFormat(seconds, 's');
export const inWatts = (watts: number): string => siFormat(watts, 'W');

/** Tenths of a volt as data sheets print them: 0.8 V, not 800 mV. */
export const inVolts = (volts: number): string =>
  Math.abs(volts) >= 0.1 && Math.abs(volts) < 1 ? `${String(Number(volts.toPrecision(3))).replace('-', '−')} V` : siFormat(volts, 'V');

/** "4.5 to 5.5 V" */
export const voltRange = (least: number, most: number): string => `${least} to ${siFormat(most, 'V')}`;

/** "1.5 times"; never less than 1.1 times. */
export const times = (factor: number): string => `${siFormat(Math.max(factor, 1.1), '', 2).trim()} times`;
