/** Proof by trying: each edit is made on a copy of the bench, everything is solved again, and the lamp is looked at. */
import { apply, join } from '../bench/changes.ts';
import type { Readings } from '../run/readings.ts';
import { simulate } from '../run/simulation.ts';
import type { Mend, Question } from './account.ts';
import type { Proof } from './answer.ts';

/** Single edits tried, and of those how many are paired where none alone is enough. */
const MOST_SINGLES = 24;
const MOST_PAIRED = 6;

/** The edit that makes the lamp light and disturbs least, or undefined if none of them does. */
export function prove(q: Question, lamp: string, mends: readonly Mend[]): Proof | undefined {
  const singles = mends.slice(0, MOST_SINGLES);
  const alone = best(singles.flatMap((m) => attempt(q, lamp, m)));
  if (alone) return alone;
  const some = singles.slice(0, MOST_PAIRED);
  const pairs = some.flatMap((a, i) => some.slice(i + 1).map((b) => ({ a, b })));
  return best(
    pairs.flatMap(({ a, b }) =>
      attempt(q, lamp, { code: 'both', at: [...a.at, ...b.at], data: {}, change: join(a.change, b.change) }).map((p) => ({
        ...p,
        both: [a, b],
      })),
    ),
  );
}

/** Fewest other lamps changed; ties go to the one that came first. */
function best(proofs: readonly Proof[]): Proof | undefined {
  let least: Proof | undefined;
  for (const p of proofs) if (!least || p.others.length < least.others.length) least = p;
  return least;
}

function attempt(q: Question, lamp: string, mend: Mend): Proof[] {
  const built = simulate(apply(q.sim.plan(), mend.change), { still: true });
  if (!built.ok) return [];
  const before = q.scene.readings;
  const after = built.value.readings();
  // a damaged lamp is no lamp any more, but was dark
  const was = before.lamps.find((l) => l.lamp === lamp) ?? ({ amps: 0, glow: 'dark' } as const);
  const is = after.lamps.find((l) => l.lamp === lamp);
  if (is?.glow !== 'lit' || worse(before, after)) return [];
  const others = after.lamps
    .filter((l) => l.lamp !== lamp && l.glow !== before.lamps.find((b) => b.lamp === l.lamp)?.glow)
    .map((l) => l.lamp);
  const { change, code, at, data } = mend;
  return [{ change, code, at, data, before: { amps: was.amps, glow: was.glow }, after: { amps: is.amps, glow: is.glow }, others }];
}

/** An edit that overloads a lamp, starts a fight or trips the supply is no repair. */
function worse(before: Readings, after: Readings): boolean {
  const over = (r: Readings) => r.lamps.filter((l) => l.glow === 'over').length;
  const fights = (r: Readings) => r.nets.filter((n) => n.held === 'fight').length;
  const limiting = (r: Readings) => r.supplies.filter((s) => s.limiting).length;
  return over(after) > over(before) || fights(after) > fights(before) || limiting(after) > limiting(before);
}
