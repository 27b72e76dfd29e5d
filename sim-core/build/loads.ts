/** What hangs on the outputs of one memory, behind whatever drives it: LEDs, loads, a digit or a bar, each with its current limit. */
import type { PlanBoard } from '../../shared/plan.ts';
import { SEGMENTS } from '../logic/segments.ts';
import { led } from '../parts/led.ts';
import { ledBar } from '../parts/led-bar-graph.ts';
import type { PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/seven-segment-display.ts';
import type { BuildRequest, RequestedOutput, Show } from './build-request.ts';
import { type BuilderState, bridge, completed, connect, type Row, railBeside, seat, takeAt, tap, tie } from './builder-state.ts';
import { type CurrentLimit, colourAt, fromPlus } from './current-limits.ts';
import { colourOf, type Source } from './drivers.ts';
import { sheetOf } from './kind-contents.ts';
import { ledSpots } from './led-placement.ts';

interface Hung {
  readonly wish: BuildRequest;
  readonly board: PlanBoard;
  readonly sources: readonly Source[];
  readonly outputs: readonly RequestedOutput[];
  /** of each output's LED */
  readonly limits: readonly CurrentLimit[];
}

/** Returns the LED of each output. */
export function putLoads(draft: BuilderState, hung: Hung): string[] {
  const put: Readonly<Record<Show, (draft: BuilderState, hung: Hung) => string[]>> = {
    leds: putLeds,
    loads: putLeds,
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

/** One LED an output; the resistor goes from its far leg to minus, or to plus where the output pulls down what it switches on. */
function putLeds(draft: BuilderState, hung: Hung): string[] {
  const spots = ledSpots(hung.board, hung.wish.arrangement ?? 'row', hung.outputs.length);
  return hung.outputs.map((output, bit) => {
    const source = sourceOf(hung, bit);
    const spot = spots[bit];
    if (!spot) throw new Error(`the builder has no place for LED ${bit}`);
    const { near, far } = spot;
    const hangs = fromPlus(hung.wish, output);
    const params = { colour: colourAt(output, bit) };
    const [driven, fixed] = [takeAt(draft, near.row, near.column), takeAt(draft, far.row, far.column)];
    const [at, to] = hangs ? [fixed, driven] : [driven, fixed];
    const id = bridge(draft, led, 'LED', at, to, { params, label: output.name });
    const ohms = ohmsOf(hung, bit);
    bridge(draft, resistor, 'R', tap(draft, far.row), railBeside(draft, far.row, hangs ? '+' : '-'), { params: { ohms } });
    connect(draft, tap(draft, source.row), tap(draft, near.row), colourOf(bit));
    return id;
  });
}

const DIGIT_ROW = 54;
const DIGIT_LIMITS = 33;

/** The outputs are the segments in their usual order, a to g, then the point; each has a resistor across the trench. */
function putDigit(draft: BuilderState, hung: Hung): string[] {
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
    connect(draft, tap(draft, source.row), tap(draft, upper), colourOf(bit));
    connect(draft, tap(draft, lower), tap(draft, digit.row(segment)), colourOf(bit));
    return `${digit.id}.${segment}`;
  });
}

const BAR_ROW = 40;

/** Anodes to the outputs, a resistor from each cathode to minus; turned round for outputs that are active low. */
function putBar(draft: BuilderState, hung: Hung): string[] {
  const activeLow = hung.outputs.some((o) => o.activeLow);
  const params = { colour: 'green' };
  const bar = seat(draft, ledBar, { prefix: 'DS', at: { board: hung.board, column: 'e', row: BAR_ROW }, params });
  const { leds } = sheetOf(ledBar, completed(ledBar, { id: bar.id, kind: ledBar.id, params }));
  const names = ledBar.pins(params);
  const rowOf = (pin: string) => bar.row(names.find((p) => p.pin === pin)?.name ?? '');
  return hung.outputs.map((_, bit) => {
    const source = sourceOf(hung, bit);
    const led = leds[bit];
    const ohms = ohmsOf(hung, bit);
    const [driven, fixed] = activeLow ? [led?.cathode, led?.anode] : [led?.anode, led?.cathode];
    const far = rowOf(fixed ?? '');
    bridge(draft, resistor, 'R', tap(draft, far), railBeside(draft, far, activeLow ? '+' : '-'), { params: { ohms } });
    connect(draft, tap(draft, source.row), tap(draft, rowOf(driven ?? '')), colourOf(bit));
    return `${bar.id}.${led?.led.name}`;
  });
}

function sourceOf({ sources }: Hung, bit: number): Source {
  const source = sources[bit];
  if (!source) throw new Error(`the builder has no source for output ${bit}`);
  return source;
}
