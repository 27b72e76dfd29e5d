/** The three columns of the truth table as they stand: wanted, stored and shown, where they agree, and which switches lead to a row. */
import type { Plan, PlanWanted } from '../../../shared/plan.ts';
import {
  grouped,
  type MemoryPins,
  type Readings,
  storedTable,
  type TruthTable,
  tableOfWanted,
  wrongBits,
} from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import type { Shown } from '../../worker/jobs.ts';

export interface Columns {
  readonly wanted: TruthTable;
  /** absent: the outputs lie on no memory of this bench */
  readonly stored?: Uint16Array;
  /** absent: not gone through yet, or it cannot be */
  readonly shown?: Shown;
  /** rows as wanted */
  readonly storedRight: number;
  readonly shownRight: number;
}

/** undefined: the bench has no table, or one that cannot be read. */
export function columnsOf(
  plan: Plan,
  memories: Plan['memories'],
  pins: readonly MemoryPins[],
  shown: Shown | undefined,
): Columns | undefined {
  const table = plan.wanted && tableOfWanted(plan.wanted);
  if (!plan.wanted || !table?.ok) return undefined;
  const wanted = table.value;
  const stored = pins.length > 0 ? storedValues(plan.wanted, memories, pins) : undefined;
  const fits = shown?.value.length === wanted.values.length ? shown : undefined;
  const storedRight = stored ? rightRows(wanted, stored) : 0;
  const shownRight = fits ? rightRows(wanted, fits.value, fits.unknown) : 0;
  return { wanted, ...(stored ? { stored } : {}), ...(fits ? { shown: fits } : {}), storedRight, shownRight };
}

/** How many rows have all bits that matter as wanted, none of them unknown. */
function rightRows({ values, dontCare, outputs }: TruthTable, words: Uint16Array, unknown?: Uint16Array): number {
  const all = 2 ** outputs.length - 1;
  let right = 0;
  for (let row = 0; row < values.length; row++) {
    const off = ((values[row] as number) ^ (words[row] as number)) | (unknown ? (unknown[row] as number) : 0);
    if ((off & all & ~(dontCare[row] as number)) === 0) right += 1;
  }
  return right;
}

let read: { readonly of: readonly unknown[]; readonly values: Uint16Array | undefined } = { of: [], values: undefined };

/** Read again only when a memory, or where the columns lie, is not as it was: not for every cell that is wanted otherwise. */
function storedValues(wanted: PlanWanted, memories: Plan['memories'], pins: readonly MemoryPins[]): Uint16Array | undefined {
  const of = [memories, pins, wanted.inputs, wanted.outputs];
  if (of.some((x, i) => x !== read.of[i])) read = { of, values: storedTable(wanted, memories, pins)?.values };
  return read.values;
}

/** Bits that the LEDs do not show as wanted, or not for certain. */
export const offShown = (wanted: TruthTable, { value, unknown }: Shown, row: number): number =>
  wrongBits(wanted, row, value[row] ?? 0) | ((unknown[row] ?? 0) & ~(wanted.dontCare[row] ?? 0) & (2 ** wanted.outputs.length - 1));

export const offStored = ({ wanted, stored }: Columns, row: number): number => (stored ? wrongBits(wanted, row, stored[row] ?? 0) : 0);

const isOff = (c: Columns, row: number): boolean => (offStored(c, row) | (c.shown ? offShown(c.wanted, c.shown, row) : 0)) !== 0;

/** Is there a row that is not stored, or not shown, as wanted? */
export const isAnyOff = ({ wanted, stored, shown, storedRight, shownRight }: Columns): boolean =>
  (stored !== undefined && storedRight < wanted.values.length) || (shown !== undefined && shownRight < wanted.values.length);

/** The first row behind this one that is not stored or not shown as wanted, round the end; undefined: there is none. */
export function nextDifference(columns: Columns, after: number): number | undefined {
  const rows = columns.wanted.values.length;
  for (let k = 1; k <= rows; k++) {
    const row = (after + k) % rows;
    if (isOff(columns, row)) return row;
  }
  return undefined;
}

interface Setting {
  readonly part: string;
  readonly pole: number;
  readonly closed: boolean;
}

/** Switches for a row, by what the sweep found out about them. */
export const settingsFor = (shown: Shown, row: number): readonly Setting[] =>
  shown.inputs.map(({ part, pole, highWhenClosed }, i) => ({ part, pole, closed: (((row >> i) & 1) === 1) === highWhenClosed }));

/** The row that the input pins stand at, if every one of them has a level. */
export function rowNow(model: BenchModel, readings: Readings): number | undefined {
  let row = 0;
  for (const [i, line] of (model.plan.wanted?.inputs ?? []).entries()) {
    const [part, name] = line.pin.split('.');
    const chip = readings.chips.find((c) => c.part === part);
    const at = model.specimen.get(part ?? '')?.legs.findIndex((l) => l.pin.name === name) ?? -1;
    const level = chip?.pins[at]?.level;
    if (chip?.state.doing === 'no supply' || (level !== 'L' && level !== 'H')) return undefined;
    if (level === 'H') row |= 1 << i;
  }
  return row;
}

/** The page's first sentence. What is shown was seen on a copy with every supply on, which is said where the bench has one off. */
export function tally(c: Columns, supplies: Readings['supplies']): string {
  const rows = c.wanted.values.length;
  const all = (n: number) =>
    n === rows
      ? `All ${grouped(rows)} rows are`
      : n === 0
        ? `None of the ${grouped(rows)} rows is`
        : `${grouped(n)} of ${grouped(rows)} rows ${n === 1 ? 'is' : 'are'}`;
  const open = c.wanted.dontCare.every((f) => f === 2 ** c.wanted.outputs.length - 1);
  if (open) return `${grouped(rows)} rows, none wanted yet.`;
  if (!c.stored) return `${grouped(rows)} rows, and no memory on this bench yet.`;
  if (!c.shown) return `${all(c.storedRight)} stored as wanted.`;
  const same = c.shownRight === c.storedRight;
  const when = supplies.every((s) => s.on) ? '' : supplies.length > 1 ? ' with all supplies on' : ' with the supply on';
  if (same && when === '') return `${all(c.storedRight)} stored and shown as wanted.`;
  const shown = c.shownRight === 0 ? 'none is' : c.shownRight === 1 ? 'one is' : `${grouped(c.shownRight)} are`;
  return `${all(c.storedRight)} stored as wanted, ${same ? (c.shownRight === 0 ? 'nor' : 'and') : shown} shown as wanted${when}.`;
}
