/** What the outputs of one memory drive, behind a buffer or a driver: LEDs, loads, a digit or a bar, each with its current limit. */
import type { PlanBoard } from '../../shared/plan.ts';
import { SEGMENTS } from '../logic/codes.ts';
import { led } from '../parts/led.ts';
import { ledBar } from '../parts/led-bar-graph.ts';
import type { PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/seven-segment-display.ts';
import { type BuildRequest, memoriesFor, type RequestedOutput, type Show } from './build-request.ts';
import { type BuilderState, bridge, completed, connect, type Row, railBeside, seat, takeAt, takeFreeHole, tie } from './builder-state.ts';
import { type CurrentLimit, colourAt, fromPlus } from './current-limits.ts';
import { colourOf, type Source } from './drivers.ts';
import { contentsOfKind } from './kind-contents.ts';
import { ledSpots } from './led-placement.ts';

interface LoadContext {
  readonly request: BuildRequest;
  readonly board: PlanBoard;
  /** which memory's outputs these are, from 0 */
  readonly memory: number;
  readonly sources: readonly Source[];
  readonly outputs: readonly RequestedOutput[];
  /** of each output's LED */
  readonly limits: readonly CurrentLimit[];
}

/** Returns the LED of each output. */
export function putLoads(state: BuilderState, context: LoadContext): string[] {
  const put: Readonly<Record<Show, (state: BuilderState, context: LoadContext) => string[]>> = {
    leds: putLeds,
    loads: putLeds,
    digit: putDigit,
    bar: putBar,
  };
  return put[context.request.show](state, context);
}

const ohmsOf = ({ limits }: LoadContext, bit: number): number => {
  const limit = limits[bit];
  if (!limit) throw new Error(`the builder has no limit for output ${bit}`);
  return limit.ohms;
};

/** One LED an output; the resistor goes from its far leg to minus, or to plus where the output pulls down what it switches on. */
function putLeds(state: BuilderState, context: LoadContext): string[] {
  const spots = ledSpots(context.board, context.request.arrangement ?? 'row', context.outputs.length);
  return context.outputs.map((output, bit) => {
    const source = sourceOf(context, bit);
    const spot = spots[bit];
    if (!spot) throw new Error(`the builder has no place for LED ${bit}`);
    const { near, far } = spot;
    const fromPlusRail = fromPlus(context.request, output);
    const params = { colour: colourAt(output, bit) };
    const [driven, fixed] = [takeAt(state, near.row, near.column), takeAt(state, far.row, far.column)];
    const [at, to] = fromPlusRail ? [fixed, driven] : [driven, fixed];
    const id = bridge(state, led, 'LED', at, to, { params, label: output.name });
    const ohms = ohmsOf(context, bit);
    bridge(state, resistor, 'R', takeFreeHole(state, far.row), railBeside(state, far.row, fromPlusRail ? '+' : '-'), { params: { ohms } });
    connect(state, takeFreeHole(state, source.row), takeFreeHole(state, near.row), colourOf(bit));
    return id;
  });
}

/** Of a single display, and of two beside each other: the first memory's, the units, on the right. */
const DIGIT_ROW = 54;
const DIGIT_ROWS = [58, 52] as const;
const DIGIT_LIMITS = 33;

/** The outputs are the segments in their usual order, a to g, then the point; each has a resistor across the trench. Two displays stand on the first board. */
function putDigit(state: BuilderState, context: LoadContext): string[] {
  const { memory, request } = context;
  const [board = context.board] = state.boards;
  const row = memoriesFor(request) > 1 ? DIGIT_ROWS[memory] : DIGIT_ROW;
  if (row === undefined) throw new Error(`the builder has no place for display ${memory}`);
  const activeLow = context.outputs.some((o) => o.activeLow);
  const kind: PartKind = activeLow ? digitCommonAnode : digitCommonCathode;
  const params = { colour: 'red' };
  const digit = seat(state, kind, { prefix: 'DS', at: { board, column: 'd', row }, params });
  tie(state, digit.row('COM'), activeLow ? '+' : '-');
  return context.outputs.map((_, bit) => {
    const source = sourceOf(context, bit);
    const segment = [...SEGMENTS, 'DP'][bit] ?? 'DP';
    const ohms = ohmsOf(context, bit);
    const upper: Row = { board: context.board, row: DIGIT_LIMITS + 2 * bit, side: 'upper' };
    const lower: Row = { ...upper, side: 'lower' };
    bridge(state, resistor, 'R', takeAt(state, upper, 'g'), takeAt(state, lower, 'd'), { params: { ohms } });
    connect(state, takeFreeHole(state, source.row), takeFreeHole(state, upper), colourOf(bit));
    connect(state, takeFreeHole(state, lower), takeFreeHole(state, digit.row(segment)), colourOf(bit));
    return `${digit.id}.${segment}`;
  });
}

const BAR_ROW = 40;

/** Each anode to its output, a resistor from its cathode to minus; where the output is active low, its cathode to the output and a resistor from its anode to plus. */
function putBar(state: BuilderState, context: LoadContext): string[] {
  const params = { colour: 'green' };
  const bar = seat(state, ledBar, { prefix: 'DS', at: { board: context.board, column: 'e', row: BAR_ROW }, params });
  const { leds } = contentsOfKind(ledBar, completed(ledBar, { id: bar.id, kind: ledBar.id, params }));
  const names = ledBar.pins(params);
  const rowOf = (pin: string) => bar.row(names.find((p) => p.pin === pin)?.name ?? '');
  return context.outputs.map(({ activeLow }, bit) => {
    const source = sourceOf(context, bit);
    const led = leds[bit];
    const ohms = ohmsOf(context, bit);
    const [driven, fixed] = activeLow ? [led?.cathode, led?.anode] : [led?.anode, led?.cathode];
    const far = rowOf(fixed ?? '');
    bridge(state, resistor, 'R', takeFreeHole(state, far), railBeside(state, far, activeLow ? '+' : '-'), { params: { ohms } });
    connect(state, takeFreeHole(state, source.row), takeFreeHole(state, rowOf(driven ?? '')), colourOf(bit));
    return `${bar.id}.${led?.led.name}`;
  });
}

function sourceOf({ sources }: LoadContext, bit: number): Source {
  const source = sources[bit];
  if (!source) throw new Error(`the builder has no source for output ${bit}`);
  return source;
}
