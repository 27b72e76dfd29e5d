/** What LEDs and 7-segment displays on the bench show, as a person reads them. */
import { characterOf, SEGMENTS } from '../logic/codes.ts';
import { type Brightness, isLit, type Readings } from '../run/readout/readings.ts';

/** What one 7-segment display shows, as a person reads it. */
export interface DisplayReading {
  readonly part: string;
  /** '5'; undefined for segments that make no character */
  readonly character: string | undefined;
  /** 'acdfg' */
  readonly lit: string;
}

/** How an LED looks, in a word or two. */
export const brightnessText = (brightness: Brightness): string => (brightness === 'unknown' ? 'undefined (X)' : brightness);

/** Every part with segments named a to g. */
export function displayReadings(readings: Readings): readonly DisplayReading[] {
  const parts = new Map<string, number>();
  for (const { part, led, brightness } of readings.leds) {
    const segment = SEGMENTS.findIndex((s) => led === `${part}.${s}`);
    if (segment >= 0) parts.set(part, (parts.get(part) ?? 0) | (isLit(brightness) ? 1 << segment : 0));
  }
  return [...parts].map(([part, bits]) => ({
    part,
    character: characterOf(bits),
    lit: SEGMENTS.filter((_, i) => (bits >> i) & 1).join(''),
  }));
}
