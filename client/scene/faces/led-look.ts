/** How LEDs of each colour look, and how an LED's reading is spoken. */
import { brightnessText, currentText, type LedReading } from '../../../sim-core/index.ts';

/** Lit glass, and the light round it. */
export const LED_INKS: Readonly<Record<string, { readonly lit: string; readonly light: string }>> = {
  red: { lit: '#e2323f', light: '#ff3b46' },
  amber: { lit: '#f09a1a', light: '#ffa21f' },
  green: { lit: '#2fa65c', light: '#2fc46a' },
  blue: { lit: '#3d7be0', light: '#4d90ff' },
  white: { lit: '#fffbe6', light: '#f3c94f' },
};

export const ledInk = (colour: string) => LED_INKS[colour] ?? { lit: '#f09a1a', light: '#ffa21f' };

/** "vent, lit, 9.1 mA", or "vent, damaged: carried 280 mA, limit 30 mA" */
export const ledSays = (name: string, reading: LedReading, damage?: string): string =>
  damage ? `${name}, ${damage}` : `${name}, ${brightnessText(reading.brightness)}, ${currentText(reading.amps)}`;
