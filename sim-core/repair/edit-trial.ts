/** Edits tried on variants of one bench: what the LEDs show after one in the rows of the table. Nothing of the bench is built again that an edit leaves as it is. */
import { sameValue } from '../../shared/same-value.ts';
import type { Change } from '../document/changes.ts';
import { stands } from '../findings/led-of-output.ts';
import type { TableGoal } from '../findings/table-goal.ts';
import type { Simulation } from '../run/api.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { BRIGHTNESSES } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import { blankSignature, NO_LED, type ProbePoints } from '../run/variants/probe-points.ts';
import { signature } from '../run/variants/signature.ts';
import { type Variant, variant } from '../run/variants/variant.ts';

/** Rows beyond so many are sampled: as many, in runs from all over the table. */
const MOST_ROWS = 2048;
const RUNS = 16;
/** So many rows are looked at in one go. */
const TOGETHER = 256;

/** What one row showed of the wanted outputs: bits that differ from the table, and bits that are undefined. */
export interface SeenRow {
  readonly row: number;
  readonly wrong: number;
  readonly unknown: number;
}

export const isWrong = ({ wrong, unknown }: SeenRow): boolean => (wrong | unknown) !== 0;

const [DARK, LIT, OVER] = (['dark', 'lit', 'overdriven'] as const).map((b) => BRIGHTNESSES.indexOf(b));

/** The bench with its supplies on and its buttons released: itself where it stands so; undefined: it cannot be simulated. */
export function poweredBench(sim: Simulation): Simulation | undefined {
  const plan = sim.plan();
  const on = switchedOn(plan, sim.circuit);
  if (sameValue(on.switches, plan.switches)) return sim;
  const made = simulate(on, { still: true, bounce: false });
  return made.ok ? made.value : undefined;
}

export class EditTrial {
  /** of the table, or of the sample that is gone through, neighbours one switch apart */
  readonly rows: readonly number[];
  private readonly points: ProbePoints;
  /** by LED: the output that it shows, as a bit */
  private readonly bits: readonly number[];
  /** outputs whose pole closes for a 0 */
  private readonly inverted: number;
  private seenBefore: readonly SeenRow[] | undefined;

  /** base: with its supplies on. most: rows beyond so many are sampled */
  constructor(
    readonly base: Simulation,
    readonly goal: TableGoal,
    most: number = MOST_ROWS,
  ) {
    const leds = [...goal.outputs.keys()];
    this.points = { leds, holes: [] };
    this.bits = leds.map((led) => 1 << (goal.outputs.get(led) ?? 0));
    this.inverted = goal.inputs.reduce((mask, { highWhenClosed }, i) => (highWhenClosed ? mask : mask | (1 << i)), 0);
    this.rows = rowsTried(2 ** goal.inputs.length, most);
  }

  /** What this bench shows as it is, in all rows that are tried. */
  get before(): readonly SeenRow[] {
    this.seenBefore ??= this.after({ op: 'all', changes: [] }) ?? [];
    return this.seenBefore;
  }

  /** undefined: no bench can be built so */
  changed(change: Change): Variant | undefined {
    const made = variant(this.base, change);
    return made.ok ? made.value : undefined;
  }

  /** What these rows show after this change; ends after the first at which `stop` says so. undefined: no bench can be built so. */
  after(change: Change, rows = this.rows, stop: (seen: SeenRow, k: number) => boolean = () => false): readonly SeenRow[] | undefined {
    const bench = this.changed(change);
    return bench && this.see(bench, rows, stop);
  }

  see(bench: Variant, rows = this.rows, stop: (seen: SeenRow, k: number) => boolean = () => false): readonly SeenRow[] {
    const { points, inverted, goal } = this;
    const seen: SeenRow[] = [];
    const missing = points.leds.reduce((mask, led, i) => (stands(bench.plan, led) ? mask : mask | (this.bits[i] as number)), 0);
    for (let from = 0; from < rows.length; from += TOGETHER) {
      const here = rows.slice(from, from + TOGETHER);
      const asked = { poles: goal.inputs, rows: Uint32Array.from(here, (row) => row ^ inverted) };
      const into = blankSignature(asked, points);
      signature(bench, asked, points, into);
      for (const [r, row] of here.entries()) {
        seen.push(this.row(row, into.leds.subarray(r * points.leds.length, (r + 1) * points.leds.length), missing));
        if (stop(seen[seen.length - 1] as SeenRow, seen.length - 1)) return seen;
      }
    }
    return seen;
  }

  /** missing: outputs of which no LED is on the bench */
  private row(row: number, looks: Uint8Array, missing: number): SeenRow {
    const { wanted } = this.goal;
    const wants = wanted.rows[row] ?? 0;
    let [wrong, unknown] = [0, 0];
    for (const [i, bit] of this.bits.entries()) {
      const look = looks[i] as number;
      const lit = look === LIT || look === OVER;
      // one that is burnt open is dark
      const isDark = look === DARK || (look === NO_LED && (missing & bit) === 0);
      if (!lit && !isDark) unknown |= bit;
      else if (lit !== ((wants & bit) !== 0)) wrong |= bit;
    }
    const care = ~(wanted.dontCare?.[row] ?? 0);
    return { row, wrong: wrong & care, unknown: unknown & care };
  }
}

/** Rows one switch apart (Gray code), all of them or runs of a sample. */
function rowsTried(rows: number, most: number): readonly number[] {
  const steps =
    rows <= most
      ? Array.from({ length: rows }, (_, k) => k)
      : Array.from({ length: most }, (_, k) => {
          const run = Math.floor((k * RUNS) / most);
          return Math.floor((run * rows) / RUNS) + (k - Math.floor((run * most) / RUNS));
        });
  return steps.map((step) => step ^ (step >> 1));
}
