/** Proof by trying: each edit is made on a copy of the bench, everything is solved again, and the LED is looked at. */
import { apply, join } from '../document/changes.ts';
import type { Readings } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import type { TestedFix } from './answer.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';

/** Single edits tried, and of those how many are paired where none alone is enough. */
const MOST_SINGLES = 24;
const MOST_PAIRED = 6;

/** The edit that makes the LED light and disturbs least, or undefined if none of them does. */
export function testFix(q: ExplanationQuestion, led: string, fixes: readonly CandidateFix[]): TestedFix | undefined {
  const singles = fixes.slice(0, MOST_SINGLES);
  const alone = best(singles.flatMap((m) => attempt(q, led, m)));
  if (alone) return alone;
  const some = singles.slice(0, MOST_PAIRED);
  const pairs = some.flatMap((a, i) => some.slice(i + 1).map((b) => ({ a, b })));
  return best(
    pairs.flatMap(({ a, b }) =>
      attempt(q, led, { code: 'both', at: [...a.at, ...b.at], data: {}, change: join(a.change, b.change) }).map((p) => ({
        ...p,
        both: [a, b],
      })),
    ),
  );
}

/** Fewest other LEDs changed; ties go to the one that came first. */
function best(proofs: readonly TestedFix[]): TestedFix | undefined {
  let least: TestedFix | undefined;
  for (const p of proofs) if (!least || p.others.length < least.others.length) least = p;
  return least;
}

function attempt(q: ExplanationQuestion, led: string, fix: CandidateFix): TestedFix[] {
  const built = simulate(apply(q.sim.plan(), fix.change), { still: true });
  if (!built.ok) return [];
  const before = q.scene.readings;
  const after = built.value.readings();
  // a damaged LED is no LED any more, but was dark
  const was = before.leds.find((l) => l.led === led) ?? ({ amps: 0, brightness: 'dark' } as const);
  const is = after.leds.find((l) => l.led === led);
  if (is?.brightness !== 'lit' || worse(before, after)) return [];
  const others = after.leds
    .filter((l) => l.led !== led && l.brightness !== before.leds.find((b) => b.led === l.led)?.brightness)
    .map((l) => l.led);
  const { change, code, at, data } = fix;
  return [
    {
      change,
      code,
      at,
      data,
      before: { amps: was.amps, brightness: was.brightness },
      after: { amps: is.amps, brightness: is.brightness },
      others,
    },
  ];
}

/** An edit that overdrives an LED, causes contention or trips the supply is no fix. */
function worse(before: Readings, after: Readings): boolean {
  const over = (r: Readings) => r.leds.filter((l) => l.brightness === 'overdriven').length;
  const contentions = (r: Readings) => r.nets.filter((n) => n.drive === 'contention').length;
  const limiting = (r: Readings) => r.supplies.filter((s) => s.limiting).length;
  return over(after) > over(before) || contentions(after) > contentions(before) || limiting(after) > limiting(before);
}
