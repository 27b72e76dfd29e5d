/** What hangs on the outputs of one memory, behind whatever drives it: lamps, loads, a digit or a bar, each with its current limit. */
import type { PlanBoard } from '../../shared/plan.ts';
import { SEGMENTS } from '../logic/segments.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/digit.ts';
import { lampBar } from '../parts/lamp-bar.ts';
import { led } from '../parts/led.ts';
import type { PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { sheetOf } from './chip-sheet.ts';
import { bridge, completed, type Draft, lead, type Row, railBeside, seat, takeAt, tap, tie } from './draft.ts';
import { colourOf, type Source } from './drivers.ts';
import { lampSpots } from './lamp-spots.ts';
import { colourAt, fromPlus, type Limit } from './limits.ts';
import type { Show, Wish, WishedOutput } from './wish.ts';

interface Hung {
  readonly wish: Wish;
  readonly board: PlanBoard;
  readonly sources: readonly Source[];
  readonly outputs: readonly WishedOutput[];
  /** of each output's lamp */
  readonly limits: readonly Limit[];
}

/** Returns the lamp of each output. */
export function putLoads(draft: Draft, hung: Hung): string[] {
  const put: Readonly<Record<Show, (draft: Draft, hung: Hung) => string[]>> = {
    lamps: putLamps,
    loads: putLamps,
    digit: putDigit,
    bar: putBar,
  };
  return put[hung.wish.show](draft, hung);
}

const ohmsOf = ({ limits }: Hung, bit: number): number => {
  const limit = limits[bit];
  if (!limit) throw new Error(`the builder has no limit for output ${bit}`);
  return limit.ohms;
};

/** One lamp an output; the resistor goes from its far leg to minus, or to plus where the output pulls down what it switches on. */
function putLamps(draft: Draft, hung: Hung): string[] {
  const spots = lampSpots(hung.board, hung.wish.arrangement ?? 'row', hung.outputs.length);
  return hung.outputs.map((output, bit) => {
    const source = sourceOf(hung, bit);
    const spot = spots[bit];
    if (!spot) throw new Error(`the builder has no place for lamp ${bit}`);
    const { near, far } = spot;
    const hangs = fromPlus(hung.wish, output);
    const params = { colour: colourAt(output, bit) };
    const [driven, fixed] = [takeAt(draft, near.row, near.column), takeAt(draft, far.row, far.column)];
    const [at, to] = hangs ? [fixed, driven] : [driven, fixed];
    const id = bridge(draft, led, 'D', at, to, { params, label: output.name });
    const ohms = ohmsOf(hung, bit);
    bridge(draft, resistor, 'R', tap(draft, far.row), railBeside(draft, far.row, hangs ? '+' : '-'), { params: { ohms } });
    lead(draft, tap(draft, source.row), tap(draft, near.row), colourOf(bit));
    return id;
  });
}

const DIGIT_ROW = 54;
const DIGIT_LIMITS = 33;

/** The outputs are the segments in their usual order, a to g, then the point; each has a resistor across the trench. */
function putDigit(draft: Draft, hung: Hung): string[] {
  const activeLow = hung.outputs.some((o) => o.activeLow);
  const kind: PartKind = activeLow ? digitCommonAnode : digitCommonCathode;
  const params = { colour: 'red' };
  const digit = seat(draft, kind, { prefix: 'DS', at: { board: hung.board, column: 'd', row: DIGIT_ROW }, params });
  tie(draft, digit.row('COM'), activeLow ? '+' : '-');
  return hung.outputs.map((_, bit) => {
    const source = sourceOf(hung, bit);
    const segment = [...SEGMENTS, 'DP'][bit] ?? 'DP';
    const ohms = ohmsOf(hung, bit);
    const upper: Row = { board: hung.board, row: DIGIT_LIMITS + 2 * bit, side: 'upper' };
    const lower: Row = { ...upper, side: 'lower' };
    bridge(draft, resistor, 'R', takeAt(draft, upper, 'g'), takeAt(draft, lower, 'd'), { params: { ohms } });
    lead(draft, tap(draft, source.row), tap(draft, upper), colourOf(bit));
    lead(draft, tap(draft, lower), tap(draft, digit.row(segment)), colourOf(bit));
    return `${digit.id}.${segment}`;
  });
}

const BAR_ROW = 40;

/** Anodes to the outputs, a resistor from each cathode to minus; turned round for outputs that are active low. */
function putBar(draft: Draft, hung: Hung): string[] {
  const activeLow = hung.outputs.some((o) => o.activeLow);
  const params = { colour: 'green' };
  const bar = seat(draft, lampBar, { prefix: 'DS', at: { board: hung.board, column: 'e', row: BAR_ROW }, params });
  const { lamps } = sheetOf(lampBar, completed(lampBar, { id: bar.id, kind: lampBar.id, params }));
  const names = lampBar.pins(params);
  const rowOf = (pin: string) => bar.row(names.find((p) => p.pin === pin)?.name ?? '');
  return hung.outputs.map((_, bit) => {
    const source = sourceOf(hung, bit);
    const lamp = lamps[bit];
    const ohms = ohmsOf(hung, bit);
    const [driven, fixed] = activeLow ? [lamp?.cathode, lamp?.anode] : [lamp?.anode, lamp?.cathode];
    const far = rowOf(fixed ?? '');
    bridge(draft, resistor, 'R', tap(draft, far), railBeside(draft, far, activeLow ? '+' : '-'), { params: { ohms } });
    lead(draft, tap(draft, source.row), tap(draft, rowOf(driven ?? '')), colourOf(bit));
    return `${bar.id}.${lamp?.lamp.name}`;
  });
}

function sourceOf({ sources }: Hung, bit: number): Source {
  const source = sources[bit];
  if (!source) throw new Error(`the builder has no source for output ${bit}`);
  return source;
}
