/** What is spoken when lamps change: "vent lit, fan dark". */
import type { Glow, Readings } from './core.ts';
import { glowWord } from './scene/faces/lamp-look.ts';
import type { Standing } from './standing.ts';

/** More changes than this at once are counted, not listed. */
const LISTED = 8;

/** The sentence for the change from one look of the lamps to the next; empty if none changed. */
export function lampNews(standing: Standing, before: ReadonlyMap<string, Glow>, readings: Readings): string {
  const names = new Map(standing.lamps.map((l) => [l.lamp, l.name]));
  const changed = readings.lamps.filter((l) => before.has(l.lamp) && before.get(l.lamp) !== l.glow);
  if (changed.length > LISTED) return `${changed.length} lamps changed: ${readings.lamps.filter((l) => l.glow === 'lit').length} are lit.`;
  return changed.map((l) => `${names.get(l.lamp) ?? l.lamp} ${glowWord(l.glow)}`).join(', ');
}

export const looks = (readings: Readings): ReadonlyMap<string, Glow> => new Map(readings.lamps.map((l) => [l.lamp, l.glow]));
