/** A bench with a hidden mistake, for whoever wants to learn to find one: it changes an LED in some row, and the plan does not give it away. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply } from '../document/changes.ts';
import { partKind } from '../parts/catalogue.ts';
import { makeRandom } from '../units/random.ts';
import { FAULT_KINDS } from './catalogue.ts';
import { type Fault, faultsOf } from './fault.ts';
import { faultBench } from './fault-bench.ts';
import { meantRows, shownDifferences, shownRows } from './shown-rows.ts';

/** easy: a look at the thing shows it; medium: a close look may; hard: only measuring or thinking does. */
export const DIFFICULTIES = ['easy', 'medium', 'hard'] as const;
/** How hard a hidden mistake is to find. */
export type Difficulty = (typeof DIFFICULTIES)[number];

/** Chance that a look shows it: from, and below. */
const SEEN: Readonly<Record<Difficulty, readonly [number, number]>> = { easy: [0.8, 2], medium: [0.3, 0.8], hard: [0, 0.3] };

/** So many are drawn until one changes an LED. */
const TRIES = 200;

type Random = () => number;

/** A bench with its mistake, and which one it is. */
export interface PlantedBench {
  readonly plan: Plan;
  readonly fault: Fault;
}

/** The same plan, seed and level give the same bench. Fails with `plan/…` or `faults/none-fits`. */
export function plantFault(plan: Plan, seed: number, level: Difficulty): Outcome<PlantedBench> {
  const bench = faultBench(plan);
  if (!bench.ok) return bench;
  const meant = meantRows(plan);
  if (!meant.ok) return meant;
  const [least, most] = SEEN[level];
  const kinds = FAULT_KINDS.filter((k) => k.visible >= least && k.visible < most);
  const faults = faultsOf(bench.value, kinds).filter((f) => !tells(plan, apply(plan, f.change)));
  const random = makeRandom(seed);
  for (let n = 0; n < TRIES; n++) {
    const fault = drawn(faults, random);
    if (!fault) break;
    const is = shownRows(apply(meant.value.plan, fault.change), meant.value.inputs);
    if (is.ok && shownDifferences(meant.value.shown, is.value).length > 0)
      return done({ plan: disguised(apply(plan, fault.change), random), fault });
  }
  return failed(
    'faults/none-fits',
    'plan',
    `No ${level} mistake fits this bench so that an LED shows it. Choose another level, or a bench with switches, a memory and LEDs.`,
  );
}

/** One of them, the likelier the more often it happens. */
function drawn(faults: readonly Fault[], random: Random): Fault | undefined {
  let left = random() * faults.reduce((sum, f) => sum + f.prior, 0);
  return (
    faults.find((f) => {
      left -= f.prior;
      return left < 0;
    }) ?? faults.at(-1)
  );
}

/** What a plan says aloud is no riddle: a part that is called damaged, a supply that is off. */
const tells = (before: Plan, after: Plan): boolean =>
  after.parts.some((p) => p.damaged && !before.parts.some((b) => b.damaged === p.damaged)) ||
  Object.entries(before.switches).some(([id, poles]) => after.switches[id] !== poles);

/** The plan without what would give the mistake away: gaps in the numbers, what was added last, a proof and a plan as meant of before. */
function disguised({ proof: _, meant: __, ...plan }: Plan, random: Random): Plan {
  const wires = shuffled(plan.wires, random).map((wire, i) => ({ ...wire, id: `W${i + 1}` }));
  const named = new Map<string, string>();
  const counts = new Map<string, number>();
  for (const { id, kind } of plan.parts) {
    const letters = /^[A-Za-z]+(?=\d+$)/.exec(id)?.[0];
    if (letters === undefined || partKind(kind)?.group !== 'passive') continue;
    const n = (counts.get(letters) ?? 0) + 1;
    counts.set(letters, n);
    named.set(id, `${letters}${n}`);
  }
  const free = new Set([...plan.boards, ...plan.meters, ...plan.parts.filter((p) => !named.has(p.id))].map((t) => t.id));
  if ([...wires.map((w) => w.id), ...named.values()].some((id) => free.has(id))) return { ...plan, wires: plan.wires };
  const parts = plan.parts.map((p) => ({ ...p, id: named.get(p.id) ?? p.id }));
  const meters = plan.meters.map((m) => {
    if (m.measures !== 'amps') return m;
    const [part = '', pin = ''] = m.leg.split('.');
    return { ...m, leg: `${named.get(part) ?? part}.${pin}` };
  });
  return { ...plan, parts, wires, meters };
}

function shuffled<T>(things: readonly T[], random: Random): T[] {
  const keyed = things.map((thing) => ({ thing, key: random() }));
  return keyed.sort((a, b) => a.key - b.key).map(({ thing }) => thing);
}
