/** What each digit on the bench shows, in words: "shows 5". */
import { type DisplayReading, displayReadings, type Readings } from '../../sim-core/index.ts';

function showsSays({ character, lit }: DisplayReading): string {
  if (lit === '') return 'is dark';
  if (character !== undefined) return `shows ${character}`;
  return lit.length === 1 ? `shows segment ${lit} only` : `shows segments ${[...lit].join(', ')}, which form no character`;
}

/** By part. */
export function digitsSay(readings: Readings): ReadonlyMap<string, string> {
  const unknown = new Set(readings.leds.filter((l) => l.brightness === 'unknown').map((l) => l.part));
  return new Map(displayReadings(readings).map((d) => [d.part, unknown.has(d.part) ? 'is undefined (X)' : showsSays(d)]));
}
