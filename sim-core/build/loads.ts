/** What the outputs of one memory drive, behind a buffer or a driver: LEDs, loads, a digit or a bar, each with its current limit. */
import type { PlanBoard } from '../../shared/plan.ts';
import { SEGMENTS } from '../logic/codes.ts';
import { led } from '../parts/led.ts';
import { ledBar } from '../parts/led-bar-graph.ts';
import { resistor } from '../parts/resistor.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/seven-segment-display.ts';
import type { Arrival } from './buffer-channels.ts';
import { type BuildRequest, memoriesFor, type RequestedOutput, type Show } from './build-request.ts';
import { type BuilderState, bridge, completed, connect, type Row, railBeside, seat, takeAt, takeFreeHole, tie } from './builder-state.ts';
import { type CurrentLimit, colourAt, fromPlus } from './current-limits.ts';
import { colourOf, type Source } from './drivers.ts';
import { contentsOfKind } from './kind-contents.ts';
import { drivenFrom, ledSpots } from './led-placement.ts';

interface LoadContext {
  readonly request: BuildRequest;
  readonly board: PlanBoard;
  /** first row that is free for them */
  readonly first: number;
  /** which memory's outputs these are, from 0 */
  readonly memory: number;
  readonly outputs: readonly RequestedOutput[];
  /** of each output's LED */
  readonly limits: readonly CurrentLimit[];
}

/** Loads that stand on their board. targets: where each output's wire arrives; inStep: a resistor goes there straight. */
export interface SeatedLoads {
  readonly targets: readonly Arrival[];
  readonly inStep: boolean;
  /** wires them up; returns the LED of each output */
  drive(sources: readonly Source[]): string[];
}

/** Seats what the outputs of one memory drive, not yet driven. */
export function seatLoads(state: BuilderState, context: LoadContext): SeatedLoads {
  const seats: Readonly<Record<Show, (state: BuilderState, context: LoadContext) => SeatedLoads>> = {
    leds: seatLeds,
    loads: seatLeds,
    digit: seatDigit,
    bar: seatBar,
  };
  return seats[context.request.show](state, context);
}

const ohmsOf = ({ limits }: LoadContext, bit: number): number => {
  const limit = limits[bit];
  if (!limit) throw new Error(`the builder has no limit for output ${bit}`);
  return limit.ohms;
};

/** One LED an output; the resistor goes from its far leg to minus, or to plus where the output pulls down what it switches on. */
function seatLeds(state: BuilderState, context: LoadContext): SeatedLoads {
  const { request, outputs, board, first } = context;
  const spots = ledSpots(board, request.arrangement ?? 'row', outputs.length, first);
  return {
    inStep: false,
    targets: spots.map((spot): Arrival => ({ row: spot.near.row.row })),
    drive: (sources) =>
      outputs.map((output, bit) => {
        const [source, spot] = [sourceOf(sources, bit), spots[bit]];
        if (!spot) throw new Error(`the builder has no place for LED ${bit}`);
        const { near, far } = drivenFrom(spot, source.row.side);
        const sign = fromPlus(request, output) ? '+' : '-';
        const [driven, fixed] = [takeAt(state, near.row, near.column), takeAt(state, far.row, far.column)];
        const [at, to] = sign === '+' ? [fixed, driven] : [driven, fixed];
        const id = bridge(state, led, 'LED', at, to, { params: { colour: colourAt(output, bit) }, label: output.name });
        const params = { ohms: ohmsOf(context, bit) };
        bridge(state, resistor, 'R', takeFreeHole(state, far.row), railBeside(state, far.row, sign), { params });
        connect(state, takeFreeHole(state, source.row), takeFreeHole(state, near.row), colourOf(bit));
        return id;
      }),
  };
}

/** Rows from one display to the next, and what resistors take that do not lead to the display itself. */
const [DIGIT_STEP, RESISTOR_ROWS] = [6, 6] as const;

/**
 * The outputs are the segments in their usual order, a to g, then the point. A display beside its buffer has each resistor straight from output to segment. Two
 * displays stand beside each other on the last memory's board, the first memory's, the units, on the right: its segments have a wire behind the resistor.
 */
function seatDigit(state: BuilderState, context: LoadContext): SeatedLoads {
  const { memory, request, first, outputs } = context;
  const last = memoriesFor(request) - 1;
  const board = state.boards[last];
  if (!board) throw new Error(`the builder has no board for display ${memory}`);
  const activeLow = outputs.some((o) => o.activeLow);
  const row = first + (request.buffered ? 0 : RESISTOR_ROWS) + (last - memory) * DIGIT_STEP;
  const params = { colour: 'red' };
  const digit = seat(state, activeLow ? digitCommonAnode : digitCommonCathode, { prefix: 'DS', at: { board, column: 'd', row }, params });
  tie(state, digit.row('COM'), activeLow ? '+' : '-');
  const segments = outputs.map((_, bit) => [...SEGMENTS, 'DP'][bit] ?? 'DP');
  const straight = request.buffered && memory === last;
  return {
    inStep: true,
    targets: segments.map((segment) => digit.row(segment)),
    drive: (sources) => {
      const beyond = straight ? [] : rowsBeyond(sources, first);
      return segments.map((segment, bit) => {
        const { row: from } = sourceOf(sources, bit);
        const to = digit.row(segment);
        const via = beyond[bit];
        const params = { ohms: ohmsOf(context, bit) };
        bridge(state, resistor, 'R', takeFreeHole(state, from), takeFreeHole(state, via ?? to), { params });
        if (via) connect(state, takeFreeHole(state, via), takeFreeHole(state, to), colourOf(bit));
        return `${digit.id}.${segment}`;
      });
    },
  };
}

/** Free rows beyond the chip, one for each source, in the sources' order on each side. */
function rowsBeyond(sources: readonly Source[], first: number): readonly Row[] {
  return sources.map(({ row }) => ({
    ...row,
    row: first - 1 + sources.filter((s) => s.row.side === row.side && s.row.row < row.row).length,
  }));
}

/** Each anode to its output, a resistor from its cathode to minus; where the output is active low, its cathode to the output and a resistor from its anode to plus. */
function seatBar(state: BuilderState, context: LoadContext): SeatedLoads {
  const { board, first, outputs } = context;
  const params = { colour: 'green' };
  const bar = seat(state, ledBar, { prefix: 'DS', at: { board, column: 'e', row: first }, params });
  const { leds } = contentsOfKind(ledBar, completed(ledBar, { id: bar.id, kind: ledBar.id, params }));
  const names = ledBar.pins(params);
  const rowOf = (pin: string | undefined) => bar.row(names.find((p) => p.pin === pin)?.name ?? '');
  const ends = outputs.map(({ activeLow }, bit) => {
    const [anode, cathode] = [rowOf(leds[bit]?.anode), rowOf(leds[bit]?.cathode)];
    return activeLow ? { driven: cathode, far: anode, sign: '+' as const } : { driven: anode, far: cathode, sign: '-' as const };
  });
  return {
    inStep: false,
    targets: ends.map(({ driven: { row } }): Arrival => ({ row })),
    drive: (sources) =>
      ends.map(({ driven, far, sign }, bit) => {
        const params = { ohms: ohmsOf(context, bit) };
        bridge(state, resistor, 'R', takeFreeHole(state, far), railBeside(state, far, sign), { params });
        connect(state, takeFreeHole(state, sourceOf(sources, bit).row), takeFreeHole(state, driven), colourOf(bit));
        return `${bar.id}.${leds[bit]?.led.name}`;
      }),
  };
}

function sourceOf(sources: readonly Source[], bit: number): Source {
  const source = sources[bit];
  if (!source) throw new Error(`the builder has no source for output ${bit}`);
  return source;
}
