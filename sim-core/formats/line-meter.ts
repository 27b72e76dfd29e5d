/** The line of a meter: what it measures and where, what its owner calls it, and where its tag stands. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanMeter } from '../../shared/plan.ts';
import type { TextToken } from './bench-words.ts';
import { readSpot } from './line-part.ts';

const LEG = /^[A-Za-z0-9_]+\.[A-Za-z0-9+/-]+$/;

export function readMeter(id: string, words: readonly TextToken[]): Outcome<PlanMeter> {
  const example = `write ${id} meter a12, ${id} meter a12 against b3, ${id} meter level a12, or ${id} meter through D3.1`;
  const places: { at?: string; against?: string } = {};
  let measures: PlanMeter['measures'] = 'volts';
  let label: string | undefined;
  let tag: [number, number] | undefined;
  let next: 'at' | 'against' = 'at';
  for (const { bare, quoted, text } of words) {
    if (bare.startsWith('@')) {
      const spot = readSpot(text);
      if (!spot.ok) return spot;
      tag = spot.value;
    } else if (bare === '' && quoted !== undefined) label = quoted;
    else if (quoted !== undefined && (bare === 'at:' || bare === 'against:')) places[bare === 'at:' ? 'at' : 'against'] = quoted;
    else if (quoted !== undefined) return failed('', `"${text}" is not clear after meter ${id}; ${example}.`);
    else if ((text === 'through' || text === 'level') && places.at === undefined) measures = text === 'level' ? 'level' : 'amps';
    else if (text === 'against' && places.at !== undefined && measures === 'volts') next = 'against';
    else if (places[next] === undefined) places[next] = text;
    else return failed('', `"${text}" is too much for meter ${id}; ${example}.`);
  }
  const { at, against } = places;
  if (at === undefined || (next === 'against' && against === undefined)) return failed('', `meter ${id} needs a place; ${example}.`);
  const more = { ...(label === undefined ? {} : { label }), ...(tag ? { tag } : {}) };
  if (measures === 'amps')
    return LEG.test(at) ? done({ id, measures, leg: at, ...more }) : failed('', `"${at}" is no leg to clip round; ${example}.`);
  if (measures === 'level') return done({ id, measures, at, ...more });
  return done({ id, measures, at, ...(against === undefined ? {} : { against }), ...more });
}
