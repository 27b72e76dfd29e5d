/** The proof of a build: every row of its wanted table set by its switches and compared with what its lamps really show. */
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { done, failed, type Outcome } from '../outcome.ts';
import type { Options } from '../run/face.ts';
import type { Glow, LampReading } from '../run/readings.ts';
import { sweep } from '../run/sweep.ts';

export interface Difference {
  readonly row: number;
  /** bits that differ, and bits that nobody can tell */
  readonly wrong: number;
  readonly undecided: number;
  readonly wanted: number;
  readonly shown: number;
}

export interface Proof {
  readonly rows: number;
  readonly right: number;
  /** the first of the rows that are not right, at most `MOST_TOLD` */
  readonly differences: readonly Difference[];
}

const MOST_TOLD = 64;

/** Which lamp shows each wanted output; undefined for one that nothing shows. */
function lampsOfWanted(plan: Plan, lamps: readonly LampReading[]): (string | undefined)[] {
  const labels = new Map(plan.parts.map((p) => [p.label ?? p.id, p.id]));
  return (plan.wanted?.outputs ?? []).map(({ name, lamp }) => {
    const id = lamp ?? labels.get(name);
    return lamps.find((l) => l.lamp === id)?.lamp;
  });
}

/** What lamps show of the wanted outputs: lit is 1, dark 0, dim or undecided cannot be told. */
function shownBits(lamps: readonly (string | undefined)[], glowOf: (lamp: string) => Glow | undefined): { value: number; unknown: number } {
  let [value, unknown] = [0, 0];
  for (const [bit, lamp] of lamps.entries()) {
    const glow = lamp === undefined ? undefined : glowOf(lamp);
    if (glow === 'lit' || glow === 'over') value |= 1 << bit;
    else if (glow !== 'dark') unknown |= 1 << bit;
  }
  return { value, unknown };
}

/** Compares one row; undefined: it is right. */
function differenceIn(wanted: PlanWanted, row: number, shown: { value: number; unknown: number }): Difference | undefined {
  const care = ~(wanted.free?.[row] ?? 0) & (2 ** wanted.outputs.length - 1);
  const value = wanted.rows[row] ?? 0;
  const undecided = shown.unknown & care;
  const wrong = (shown.value ^ value) & care & ~undecided;
  return wrong | undecided ? { row, wrong, undecided, wanted: value, shown: shown.value } : undefined;
}

/** Refused where the plan has no table, or a wanted input is not set by exactly one switch. */
export function prove(plan: Plan, options: Partial<Options> = {}): Outcome<Proof> {
  const { wanted } = plan;
  if (!wanted || wanted.outputs.length === 0)
    return failed('wanted', 'This plan has no truth table to be proven. Write one on the page Table.');
  const swept = sweep(plan, options);
  if (!swept.ok) return swept;
  const missing = wanted.inputs.find((i) => !swept.value.inputs.some((s) => s.pin === i.pin));
  if (missing)
    return failed(
      'wanted',
      `No single switch sets ${missing.name} (${missing.pin}), so its rows cannot be gone through. Wire a switch to it.`,
    );
  const lamps = lampsOfWanted(plan, swept.value.rows[0]?.lamps ?? []);
  const differences: Difference[] = [];
  let right = 0;
  for (const { row, lamps: seen } of swept.value.rows) {
    const glows = new Map(seen.map((l) => [l.lamp, l.glow]));
    const off = differenceIn(
      wanted,
      row,
      shownBits(lamps, (lamp) => glows.get(lamp)),
    );
    if (!off) right += 1;
    else if (differences.length < MOST_TOLD) differences.push(off);
  }
  return done({ rows: swept.value.rows.length, right, differences });
}
