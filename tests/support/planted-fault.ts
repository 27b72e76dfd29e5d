/** A mistake planted by chance on one of the benches, and an LED that it changes in some row: what a person would ask about. */
import type { Plan } from '../../shared/plan.ts';
import { type Fault, type FaultKind, faultsOf } from '../../sim-core/faults/fault.ts';
import { type FaultBench, faultBench } from '../../sim-core/faults/fault-bench.ts';
import { apply, simulate } from '../../sim-core/index.ts';
import { BRIGHTNESSES } from '../../sim-core/run/readout/readings.ts';
import { RowWalker } from '../../sim-core/run/row-walk.ts';
import { type SwitchedInput, switchedInputs } from '../../sim-core/run/switched-inputs.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { type DiagnosisBench, diagnosisBenches } from './diagnosis-benches.ts';

/** By row, then by LED: 1 lit, 0 dark, -1 neither. */
export type Shown = ReadonlyMap<string, Int8Array>;

/** A healthy bench with what it shows. */
export interface MeantBench extends DiagnosisBench {
  readonly faults: FaultBench;
  readonly inputs: readonly SwitchedInput[];
  readonly shown: Shown;
}

export interface Planted {
  readonly bench: MeantBench;
  readonly fault: Fault;
  /** the bench with the mistake, its switches at `row` */
  readonly plan: Plan;
  readonly row: number;
  /** an LED that shows something else there than was meant; undefined: it is not on the bench any more */
  readonly led: string | undefined;
  /** what it was meant to do there */
  readonly meant: 'lit' | 'dark';
}

/** So many mistakes are drawn for one that changes an LED. */
const TRIES = 64;

const LOOKS = BRIGHTNESSES.map((b) => (b === 'dark' ? 0 : b === 'lit' || b === 'overdriven' ? 1 : -1));

const started = (plan: Plan) => {
  const made = simulate(plan, { still: true, bounce: false });
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};

/** What a bench shows when these poles go through all rows. */
export function shownBy(plan: Plan, inputs: readonly SwitchedInput[]): Shown {
  const walk = new RowWalker(started(plan), inputs, { part: 0, of: 1 }, false);
  const shown = new Map(walk.leds.map((led) => [led, new Int8Array(walk.rows)]));
  for (let row = walk.next(); row >= 0; row = walk.next())
    for (const [i, led] of walk.leds.entries()) shown.get(led)![row] = LOOKS[walk.brightnesses[i]!]!;
  return shown;
}

let known: readonly MeantBench[] | undefined;

export function meantBenches(): readonly MeantBench[] {
  known ??= diagnosisBenches().map(({ name, plan }): MeantBench => {
    const faults = faultBench(plan);
    if (!faults.ok) throw new Error(faults.failure.says);
    const inputs = switchedInputs(started(plan));
    return { name, plan, faults: faults.value, inputs, shown: shownBy(plan, inputs) };
  });
  return known;
}

/** The bench with its input switches at this row of the table, as the healthy one is set. */
export function atRow(plan: Plan, inputs: readonly SwitchedInput[], row: number): Plan {
  const switches = { ...plan.switches };
  for (const [bit, { part, pole, highWhenClosed }] of inputs.entries()) {
    const poles = [...(switches[part] ?? [])];
    while (poles.length <= pole) poles.push(false);
    poles[pole] = (((row >> bit) & 1) === 1) === highWhenClosed;
    switches[part] = poles;
  }
  return { ...plan, switches };
}

/** Places where the two differ; of an LED that is gone, where it was lit. */
export function differences(meant: Shown, is: Shown): readonly { readonly led: string; readonly row: number; readonly lit: boolean }[] {
  return [...meant].flatMap(([led, rows]) => {
    const now = is.get(led);
    return [...rows].flatMap((look, row) => (look >= 0 && look !== (now?.[row] ?? 0) ? [{ led, row, lit: look === 1 }] : []));
  });
}

const found = new Map<string, readonly Fault[]>();

/** The same kind and seed give the same mistake. Undefined: none that was drawn changes an LED. */
export function plantedFault(kind: FaultKind, seed: number): Planted | undefined {
  const random = makeRandom(Array.from(kind.kind).reduce((hash, letter) => Math.imul(hash, 31) + letter.charCodeAt(0), seed * 7919));
  const one = <T>(of: readonly T[]): T | undefined => of[Math.floor(random() * of.length)];
  const faultsAt = (bench: MeantBench): readonly Fault[] => {
    const key = `${kind.kind} ${bench.name}`;
    const faults = found.get(key) ?? faultsOf(bench.faults, [kind]);
    found.set(key, faults);
    return faults;
  };
  const benches = meantBenches().filter((b) => faultsAt(b).length > 0);
  for (let n = 0; n < TRIES; n++) {
    const bench = one(benches);
    const fault = bench && one(faultsAt(bench));
    if (!bench || !fault) return undefined;
    const plan = apply(bench.plan, fault.change);
    const is = shownBy(plan, bench.inputs);
    const all = differences(bench.shown, is);
    // a dead one is still there to be asked about
    const there = (led: string) => is.has(led) || plan.parts.some((p) => p.id === led.split('.')[0]);
    const askable = all.filter((d) => there(d.led));
    const dark = askable.filter((d) => d.lit);
    const asked = one(dark.length > 0 ? dark : askable.length > 0 ? askable : all);
    if (!asked) continue;
    const { row, led, lit } = asked;
    return {
      bench,
      fault,
      plan: atRow(plan, bench.inputs, row),
      row,
      led: there(led) ? led : undefined,
      meant: lit ? 'lit' : 'dark',
    };
  }
  return undefined;
}
