/** A pin that nothing holds, or that nothing lifts: a resistor from its row to a rail. */
import { resistor } from '../parts/resistor.ts';
import { nextDownIn } from '../units/e-series.ts';
import type { Curing, FixContext, FixRule } from './fix.ts';
import { between, freeBeside, freeOfSupply, legOf, nearestPair } from './free-holes.ts';

function held(about: FixContext, high: boolean): readonly FixRule[] {
  const [what] = about.finding.at;
  const leg = legOf(about, what);
  const pair = leg && nearestPair(freeBeside(about, leg), freeOfSupply(about, high));
  if (!what || !pair) return [];
  const ohms = nextDownIn('E12', Number(about.finding.data.cure));
  const change = between(about, resistor.id, { ohms }, pair);
  return change ? [{ deed: { does: 'hold', what, high, ohms }, change }] : [];
}

/** Only a person knows which of the two was meant: low is asked for more often, so it comes first. */
export const holdEitherWay: Curing = (about) => [...held(about, false), ...held(about, true)];

export const holdHigh: Curing = (about) => held(about, true);
