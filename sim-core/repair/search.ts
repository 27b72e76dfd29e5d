/** The search for the one edit that makes every row right: the likeliest first, each tried at a row that is wrong and left at the first mismatch. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change } from '../document/changes.ts';
import { type FaultBench, faultBench } from '../faults/fault-bench.ts';
import { atRow } from '../faults/shown-rows.ts';
import type { Simulation } from '../run/api.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { BRIGHTNESSES, isLit } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import { allTurns } from '../run/slices.ts';
import { additions } from './additions.ts';
import type { RepairCandidate } from './candidate.ts';
import { differencesFromMeant } from './differences.ts';
import { hazardsOf, type SeenRow, seeRows } from './fix-trial.ts';
import { goalOf, type TableGoal } from './goal.ts';
import { Influence, type NetSet, touchedNets } from './influence.ts';
import { inverseFaults } from './inverse-faults.ts';
import { renewals, switchedOff } from './renewals.ts';

/** An edit that makes every row right and brings no new damage risk or fault. */
export type Repair = RepairCandidate;

/** How far the search has come. */
export interface RepairProgress {
  /** rows that are wrong before anything is done */
  readonly wrong: number;
  readonly tried: number;
  readonly of: number;
  /** the likeliest first */
  readonly repairs: readonly Repair[];
}

/** So many repairs are enough to choose from. */
const ENOUGH = 3;
/** What is so much less likely than a repair that was found is not tried any more; our choice. */
const FAR_BEHIND = 30;
/** A repair is proven at all of them, however many. */
const EVERY_ROW = Number.POSITIVE_INFINITY;
/** Of the rows that are wrong so many are tried before all of them are gone through. */
const FIRST_ROWS = 3;

/**
 * Goes through the candidates, a pause after each; what it returns is all of it. With nothing wrong there is nothing to repair.
 * Fails with `card/no-switch`, `plan/…` or `table/none`.
 */
export function* searchRepairs(plan: Plan): Generator<RepairProgress, Outcome<RepairProgress>> {
  const search = RepairSearch.of(plan);
  if (!search.ok) return search;
  const { candidates, rowsWrong: wrong } = search.value;
  const repairs: Repair[] = [];
  let tried = 0;
  for (const candidate of candidates) {
    if (repairs.length >= ENOUGH) break;
    tried += 1;
    const [best] = repairs;
    if (best && candidate.prior < best.prior / FAR_BEHIND) break;
    const isKnown = repairs.some((r) => sameThings(r, candidate));
    if (!isKnown && search.value.isRepair(candidate.change)) repairs.push(candidate);
    yield { wrong, tried, of: candidates.length, repairs };
  }
  return done({ wrong, tried, of: candidates.length, repairs });
}

/** All at once. Fails with `card/no-switch`, `plan/…` or `table/none`. */
export function findRepairs(plan: Plan): Outcome<RepairProgress> {
  return allTurns(searchRepairs(plan));
}

const isWrong = ({ wrong, unknown }: SeenRow): boolean => (wrong | unknown) !== 0;

/** The same act at the same things, into another hole of the row. */
const sameThings = (a: RepairCandidate, b: RepairCandidate): boolean =>
  a.kind === b.kind &&
  a.things.length === b.things.length &&
  a.things.every((t) => b.things.some((u) => u.kind === t.kind && u.id === t.id));

class RepairSearch {
  readonly candidates: readonly RepairCandidate[];
  private readonly wrong: readonly SeenRow[];
  private hazards: ReadonlySet<string> | undefined;

  static of(plan: Plan): Outcome<RepairSearch> {
    const goal = goalOf(plan);
    if (!goal.ok) return goal;
    const bench = faultBench(plan);
    return bench.ok ? done(new RepairSearch(bench.value, goal.value)) : bench;
  }

  private constructor(
    private readonly bench: FaultBench,
    private readonly goal: TableGoal,
  ) {
    const { plan } = bench;
    this.wrong = (seeRows(plan, goal, undefined, EVERY_ROW) ?? []).filter(isWrong);
    // a supply that is off shows in no row: all of them are gone through with it on
    this.candidates = this.wrong.length === 0 ? switchedOff(bench) : this.inReach(this.all());
  }

  get rowsWrong(): number {
    return this.wrong.length;
  }

  /** The likeliest first. */
  private all(): readonly RepairCandidate[] {
    const { bench } = this;
    const found = [...differencesFromMeant(bench.plan), ...renewals(bench), ...inverseFaults(bench), ...additions(bench)];
    return found.sort((a, b) => b.prior - a.prior);
  }

  /** Those that touch something behind each LED that is wrong somewhere. */
  private inReach(candidates: readonly RepairCandidate[]): readonly RepairCandidate[] {
    const { circuit } = this.bench;
    const influence = new Influence(circuit);
    const outputs = this.wrong.reduce((mask, s) => mask | s.wrong | s.unknown, 0);
    const behind = [...this.goal.outputs]
      .flatMap(([led, k]): NetSet[] => ((outputs >> k) & 1 ? [influence.of(led)] : []))
      .filter((n) => n.size > 0);
    return candidates.filter(({ change }) => {
      const nets = touchedNets(circuit, influence, change);
      return !nets || behind.every((reached) => [...nets].some((n) => reached.has(n)));
    });
  }

  /** Is every row right after this change, and nothing in new danger? */
  isRepair(change: Change): boolean {
    const { goal, wrong } = this;
    const after = apply(this.bench.plan, change);
    const [first] = wrong;
    if (first && !this.isRightAt(after, wrong.slice(0, FIRST_ROWS))) return false;
    const seen = seeRows(after, goal, isWrong, EVERY_ROW);
    return seen !== undefined && !seen.some(isWrong) && this.isSafe(after);
  }

  private isRightAt(plan: Plan, rows: readonly SeenRow[]): boolean {
    const [first] = rows;
    const sim = first && this.started(atRow(plan, this.goal.inputs, first.row));
    if (!sim) return false;
    const looks = new Uint8Array(sim.circuit.leds.length);
    return rows.every(({ row }, i) => {
      if (i > 0) this.goTo(sim, row);
      sim.brightnesses(looks);
      return this.isRight(sim, looks, row);
    });
  }

  private isRight({ circuit }: Simulation, looks: Uint8Array, row: number): boolean {
    const { wanted, outputs } = this.goal;
    const care = ~(wanted.dontCare?.[row] ?? 0);
    const places = new Map(circuit.leds.map((led, i) => [led.id, i]));
    return [...outputs].every(([led, output]) => {
      if (!((care >> output) & 1)) return true;
      const look = BRIGHTNESSES[looks[places.get(led) ?? -1] ?? 0] ?? 'unknown';
      return ((wanted.rows[row] ?? 0) >> output) & 1 ? isLit(look) : look === 'dark';
    });
  }

  private goTo(sim: Simulation, row: number): void {
    for (const [bit, { part, pole, highWhenClosed }] of this.goal.inputs.entries())
      sim.begin({ do: 'set', part, pole, closed: (((row >> bit) & 1) === 1) === highWhenClosed });
    sim.rest();
  }

  private isSafe(after: Plan): boolean {
    const { inputs } = this.goal;
    const sim = this.started(after);
    if (!sim) return false;
    const found = hazardsOf(sim, inputs);
    if (found.size === 0) return true;
    if (!this.hazards) {
      const before = this.started(this.bench.plan);
      this.hazards = before ? hazardsOf(before, inputs) : new Set();
    }
    const known = this.hazards;
    return [...found].every((key) => known.has(key));
  }

  private started(plan: Plan): Simulation | undefined {
    const made = simulate(switchedOn(plan, this.bench.circuit), { still: true, bounce: false });
    return made.ok ? made.value : undefined;
  }
}
