/** What a bench meter would show of a current or a voltage: below that it is 0. */
import { siFormat } from './quantity.ts';

/** Our choice: the last digit of a bench meter's smallest ranges [A, V]. */
export const UNSEEN_AMPS = 1e-6;
const UNSEEN_VOLTS = 1e-3;

/** "5.24 mA"; "0 mA" for what no meter would show. */
export const currentText = (amps: number): string => (Math.abs(amps) < UNSEEN_AMPS ? '0 mA' : siFormat(amps, 'A'));

export const seenVolts = (volts: number): number => (Math.abs(volts) < UNSEEN_VOLTS ? 0 : volts);
