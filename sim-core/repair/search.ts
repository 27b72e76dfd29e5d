/** The search for the one edit that makes every row right: the likeliest first, each tried at a row that is wrong and left at the first mismatch. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { stripAt } from '../board/tie-points.ts';
import { apply, type Change, join } from '../document/changes.ts';
import { type FaultBench, faultBench } from '../faults/fault-bench.ts';
import { wireMissing } from '../faults/kinds/wire-missing.ts';
import { storeErased, storeTable } from '../findings/store-table.ts';
import { goalOf, type TableGoal } from '../findings/table-goal.ts';
import { tablePins } from '../findings/table-pins.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { circuitKey } from '../run/circuit/circuit-key.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { allTurns } from '../run/slices.ts';
import type { Variant } from '../run/variants/variant.ts';
import { additions } from './additions.ts';
import { candidateOf, type RepairCandidate } from './candidate.ts';
import { differencesFromMeant } from './differences.ts';
import { EditTrial, isWrong, type SeenRow } from './edit-trial.ts';
import { exchangedBuses, MOVE_WIRES } from './exchanged-buses.ts';
import { hazardsOf } from './hazards.ts';
import { Influence, type NetSet, touchedBy } from './influence.ts';
import { inverseFaults } from './inverse-faults.ts';
import { renewals, STORE_TABLE, switchedOff } from './renewals.ts';

/** An edit that makes every row right and brings no new damage risk or fault. */
export type Repair = RepairCandidate;

/** How far the search has come. */
export interface RepairProgress {
  /** rows that are wrong before anything is done */
  readonly wrong: number;
  readonly tried: number;
  readonly of: number;
  /** memories that are still erased somewhere: after the repair the table is to be written into them */
  readonly toWrite: readonly string[];
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
 * Goes through the candidates, a pause after each; what it returns is all of it. With nothing wrong there is nothing to repair. Where more is wrong than
 * that memories are still erased, they are taken for written. Fails with `card/no-switch`, `plan/…` or `table/none`.
 */
export function* searchRepairs(plan: Plan): Generator<RepairProgress, Outcome<RepairProgress>> {
  const goal = goalOf(plan);
  if (!goal.ok) return goal;
  const found = begin(plan, goal.value);
  if (!found.ok) return found;
  const { bench, trial } = found.value;
  const erased = storeErased(plan, tablePins(bench.circuit));
  const fill = join(...(erased.ok ? erased.value.values() : []));
  const filled = trial.changed(fill);
  const isMore = erased.ok && erased.value.size > 0 && filled && trial.see(filled, undefined, isWrong).some(isWrong);
  const written = isMore ? begin(apply(plan, fill), goal.value) : found;
  if (!written.ok) return written;
  const toWrite = isMore ? [...erased.value.keys()] : [];
  const whole = storeTable(plan, tablePins(bench.circuit));
  // the whole table goes into what the memories really hold
  const told = (p: RepairProgress): RepairProgress => ({
    ...p,
    toWrite: p.repairs.some((r) => r.kind === STORE_TABLE) ? [] : toWrite,
    repairs: p.repairs.map((r) => (isMore && r.kind === STORE_TABLE && whole.ok ? { ...r, change: whole.value } : r)),
  });
  const turns = new RepairSearch(written.value.bench, written.value.trial).turns();
  for (;;) {
    const { done: over, value } = turns.next();
    if (over) return done(told(value));
    if (value) yield told(value);
  }
}

function begin(plan: Plan, goal: TableGoal): Outcome<{ readonly bench: FaultBench; readonly trial: EditTrial }> {
  const bench = faultBench(plan);
  if (!bench.ok) return bench;
  const base = simulate(switchedOn(plan, bench.value.circuit), { still: true, bounce: false });
  return base.ok ? done({ bench: bench.value, trial: new EditTrial(base.value, goal, EVERY_ROW) }) : base;
}

/** All at once. Fails with `card/no-switch`, `plan/…` or `table/none`. */
export function findRepairs(plan: Plan): Outcome<RepairProgress> {
  return allTurns(searchRepairs(plan));
}

const meet = (a: NetSet, b: NetSet = new Set()): boolean => [...b].some((n) => a.has(n));

/** The same act at the same things, into another hole of the row; wires that go to each other's places, and a wire that is one too many, have but one. */
const sameThings = (a: RepairCandidate, b: RepairCandidate): boolean =>
  (a.kind === b.kind || a.kind === MOVE_WIRES || isRemoval(a)) && sameRefs(a, b);

/** It adds things, and touches nothing that is there. */
const isAddition = (change: Change): boolean => (change.op === 'all' ? change.changes.every(isAddition) : change.op === 'insert');

const sameRefs = (a: RepairCandidate, b: RepairCandidate): boolean =>
  a.things.length === b.things.length && a.things.every((t) => b.things.some((u) => u.kind === t.kind && u.id === t.id));

/** Does a rail or a chip's output hold the metal at this hole? */
function isDriven(circuit: Circuit, point: string): boolean {
  const net = circuit.nets.ofStrip.get(stripAt(point, circuit.plan.boards));
  return (
    net !== undefined &&
    circuit.chips.some(({ outputs, supply, ground }) => [supply, ground, ...outputs].some(({ leg }) => circuit.netOf(leg) === net))
  );
}

const isRemoval = ({ kind }: RepairCandidate): boolean => kind === wireMissing.kind;

export class RepairSearch {
  private readonly wrong: readonly SeenRow[];
  private hazards: ReadonlySet<string> | undefined;
  /** by circuit: is every row right? */
  private readonly proven = new Map<string, boolean>();

  /** bench: as it stands; trial: of the same bench with its supplies on; own: candidates beside those that are found here */
  constructor(
    private readonly bench: FaultBench,
    private readonly trial: EditTrial,
    private readonly own: (wrong: readonly SeenRow[]) => readonly RepairCandidate[] = () => [],
  ) {
    this.wrong = trial.before.filter(isWrong);
  }

  /** Yields how far it has come after each candidate, and nothing in pauses between. */
  *turns(): Generator<RepairProgress | undefined, RepairProgress> {
    // a supply that is off shows in no row: all of them are gone through with it on
    const candidates = this.wrong.length === 0 ? switchedOff(this.bench) : this.inReach(this.all());
    const repairs: Repair[] = [];
    let tried = 0;
    const progress = (): RepairProgress => ({ wrong: this.wrong.length, tried, of: candidates.length, toWrite: [], repairs });
    for (const candidate of candidates) {
      if (repairs.length >= ENOUGH) break;
      tried += 1;
      const [best] = repairs;
      if (best && candidate.prior < best.prior / FAR_BEHIND) break;
      const isKnown = (c: RepairCandidate) => repairs.some((r) => sameThings(r, c) || this.isSame(r, c));
      if (!isKnown(candidate) && (yield* this.isRepair(candidate))) {
        const repair = this.wireTooMany(candidate);
        if (!isKnown(repair)) repairs.push(repair);
      }
      yield progress();
    }
    return progress();
  }

  /** The likeliest first. */
  private all(): readonly RepairCandidate[] {
    const { bench } = this;
    const found = [
      ...this.own(this.wrong),
      ...this.exchanged(),
      ...differencesFromMeant(bench.plan),
      ...renewals(bench),
      ...inverseFaults(bench),
      ...additions(bench),
    ];
    return found.sort((a, b) => b.prior - a.prior);
  }

  /** What all rows together say, where all of them were gone through. */
  private exchanged(): readonly RepairCandidate[] {
    const { bench, trial } = this;
    return trial.rows.length === trial.goal.wanted.rows.length ? exchangedBuses(bench, trial.goal, trial.before) : [];
  }

  /** Those that touch something behind each LED that is wrong somewhere. */
  private inReach(candidates: readonly RepairCandidate[]): readonly RepairCandidate[] {
    const { circuit } = this.bench;
    // a supply that sags moves every LED
    if (this.trial.base.readings().supplies.some((s) => s.limiting)) return candidates;
    const influence = new Influence(circuit);
    const outputs = this.wrong.reduce((mask, s) => mask | s.wrong | s.unknown, 0);
    const wrong = [...this.trial.goal.outputs].flatMap(([led, k]) => ((outputs >> k) & 1 && influence.of(led).size > 0 ? [led] : []));
    return candidates.filter(({ change }) => {
      const touched = touchedBy(circuit, influence, change);
      const reaches = (led: string) =>
        touched?.rows.some((row) => influence.rowsTied(led).has(row)) || meet(influence.of(led), touched?.nets);
      return !touched || wrong.every(reaches);
    });
  }

  /** The same circuit by touching the same things. */
  private isSame(a: RepairCandidate, b: RepairCandidate): boolean {
    if (!sameRefs(a, b) && !(isAddition(a.change) && isAddition(b.change))) return false;
    const [one, other] = [a, b].map(({ change }) => {
      const after = this.trial.changed(change);
      const key = after && circuitKey(after.plan);
      return key?.ok ? key.value : undefined;
    });
    return one !== undefined && one === other;
  }

  /** Is every row right after this change, and nothing in new danger? */
  private *isRepair({ change }: RepairCandidate): Generator<undefined, boolean> {
    const { trial, wrong } = this;
    const after = trial.changed(change);
    const first = wrong.slice(0, FIRST_ROWS).map((s) => s.row);
    if (!after || trial.see(after, first, isWrong).some(isWrong)) return false;
    if (!this.isRight(after)) return false;
    yield;
    return yield* this.isSafe(after);
  }

  /** A wire that would do nothing where it would go to, or join two drivers there, is one too many. */
  private wireTooMany(repair: RepairCandidate): RepairCandidate {
    const { change, prior } = repair;
    if (change.op !== 'replace' || change.list !== 'wires') return repair;
    const { plan } = this.bench;
    const without: Change = { op: 'remove', list: 'wires', item: change.before, index: plan.wires.indexOf(change.before) };
    const removed = this.trial.changed(without);
    if (!removed) return repair;
    const [key, moved] = [removed.plan, apply(plan, change)].map((p) => circuitKey(p));
    const isIdle = key?.ok && moved?.ok && key.value === moved.value;
    const { from, to } = change.after;
    if (!isIdle && !([from, to].every((end) => isDriven(removed.circuit, end)) && this.isRight(removed))) return repair;
    return candidateOf(wireMissing.kind, without, prior);
  }

  /** All rows; equal circuits show the same. */
  private isRight(after: Variant): boolean {
    const key = circuitKey(after.plan);
    const known = key.ok ? this.proven.get(key.value) : undefined;
    if (known !== undefined) return known;
    const isRight = !this.trial.see(after, undefined, isWrong).some(isWrong);
    if (key.ok) this.proven.set(key.value, isRight);
    return isRight;
  }

  private *isSafe(after: Variant): Generator<undefined, boolean> {
    const { trial } = this;
    const found = yield* hazardsOf(after, trial.goal.inputs);
    if (found.size === 0) return true;
    if (!this.hazards) {
      const before = trial.changed({ op: 'all', changes: [] });
      this.hazards = before ? yield* hazardsOf(before, trial.goal.inputs) : new Set();
    }
    const known = this.hazards;
    return [...found].every((key) => known.has(key));
  }
}
