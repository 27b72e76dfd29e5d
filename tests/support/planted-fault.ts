/** A mistake planted by chance on one of the benches, and an LED that it changes in some row: what a person would ask about. */
import type { Plan } from '../../shared/plan.ts';
import { type Fault, type FaultKind, faultsOf } from '../../sim-core/faults/fault.ts';
import { type FaultBench, faultBench } from '../../sim-core/faults/fault-bench.ts';
import { atRow, type MeantRows, meantRows, type ShownRows, shownDifferences, shownRows } from '../../sim-core/faults/shown-rows.ts';
import { apply, ledsOfOutput } from '../../sim-core/index.ts';
import type { SwitchedInput } from '../../sim-core/run/switched-inputs.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { diagnosisBenches } from './diagnosis-benches.ts';

/** A healthy bench with what it shows. */
export interface MeantBench extends MeantRows {
  readonly name: string;
  readonly faults: FaultBench;
  /** LEDs that show an output of the table */
  readonly asked: ReadonlySet<string>;
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

/** What a bench shows when these poles go through all rows. */
export function shownBy(plan: Plan, inputs: readonly SwitchedInput[]): ShownRows {
  const shown = shownRows(plan, inputs);
  if (!shown.ok) throw new Error(shown.failure.says);
  return shown.value;
}

/** May this LED look as it likes in this row, by the table? */
export function isFree({ plan }: Pick<MeantBench, 'plan'>, { led, row }: { readonly led: string; readonly row: number }): boolean {
  const { outputs = [], dontCare } = plan.wanted ?? {};
  return outputs.some((o, bit) => ledsOfOutput(plan, o).includes(led) && (((dontCare?.[row] ?? 0) >> bit) & 1) === 1);
}

let known: readonly MeantBench[] | undefined;

export function meantBenches(): readonly MeantBench[] {
  known ??= diagnosisBenches().map(({ name, plan }): MeantBench => {
    const faults = faultBench(plan);
    if (!faults.ok) throw new Error(faults.failure.says);
    const meant = meantRows(plan);
    if (!meant.ok) throw new Error(meant.failure.says);
    const asked = new Set((plan.wanted?.outputs ?? []).flatMap((o) => ledsOfOutput(plan, o)));
    return { name, faults: faults.value, asked, ...meant.value };
  });
  return known;
}

/** Of the kind that was asked for last: thousands of wrong bits take much room. */
const found = new Map<string, readonly Fault[]>();

/** The same kind and seed give the same mistake. Undefined: none that was drawn changes an LED. */
export function plantedFault(kind: FaultKind, seed: number): Planted | undefined {
  const random = makeRandom(Array.from(kind.kind).reduce((hash, letter) => Math.imul(hash, 31) + letter.charCodeAt(0), seed * 7919));
  const one = <T>(of: readonly T[]): T | undefined => of[Math.floor(random() * of.length)];
  const faultsAt = (bench: MeantBench): readonly Fault[] => {
    const key = `${kind.kind} ${bench.name}`;
    const faults = found.get(key) ?? faultsOf(bench.faults, [kind]);
    if (![...found.keys()].every((k) => k.startsWith(`${kind.kind} `))) found.clear();
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
    const all = shownDifferences(bench.shown, is).filter((d) => !isFree(bench, d));
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
