/** What hangs on the outputs of one memory: a buffer if one is wanted, then lamps, a digit or a bar, each with its current limit. */
import type { PlanBoard } from '../../shared/plan.ts';
import { SEGMENTS } from '../logic/segments.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/digit.ts';
import type { LampColour } from '../parts/figures/junctions.ts';
import { lampBar } from '../parts/lamp-bar.ts';
import { led } from '../parts/led.ts';
import { octalBuffer } from '../parts/octal-buffer.ts';
import type { ChipSpec, PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { chipOf, type KindSheet, sheetOf } from './chip-sheet.ts';
import { bridge, completed, type Draft, lead, type Row, railBeside, seat, takeAt, tap, tie } from './draft.ts';
import { type LampSpot, lampSpots } from './lamp-spots.ts';
import { feed } from './sections.ts';
import { limitFor } from './sizes.ts';
import type { Show, Wish, WishedOutput } from './wish.ts';

/** Where a lamp's lead comes from, and the chip that gives or takes its current. */
export interface Source {
  readonly row: Row;
  readonly chip: ChipSpec;
}

const WIRE_COLOURS = ['orange', 'yellow', 'green', 'turquoise', 'violet', 'pink', 'brown', 'white'] as const;
export const colourOf = (bit: number): string => WIRE_COLOURS[bit % WIRE_COLOURS.length] ?? 'white';

const LAMP_COLOURS: readonly LampColour[] = ['green', 'red', 'amber'];
const BUFFER_ROW = 20;
const BUFFER_FAMILY = { family: 'HCT' } as const;

/** One way through the buffer: its group, its number in it, and which side of the package it comes out at, how far from the package's left end. */
interface Channel {
  readonly group: number;
  readonly n: number;
  readonly side: Row['side'];
  readonly from: number;
}

/** From one end of the package to the other, so that leads lie beside each other: the first four come out above, the others below, right to left. */
const CHANNELS = Array.from({ length: 8 }, (_, k): Channel => {
  const n = (k % 4) + 1;
  return k < 4 ? { group: 1, n, side: 'upper', from: n } : { group: 2, n, side: 'lower', from: 5 - n };
});

/** A channel for each lamp on the side where its lead ends, the nearest lamp's from the package's near end, so that the leads lie inside each other. */
function channelsTo(spots: readonly LampSpot[]): Channel[] {
  const free = [...CHANNELS].sort((a, b) => b.from - a.from);
  const chosen = new Map<LampSpot, Channel>();
  for (const spot of [...spots].sort((a, b) => a.near.row.row - b.near.row.row)) {
    const own = free.findIndex((c) => c.side === spot.near.row.side);
    const [channel] = free.splice(Math.max(0, own), 1);
    if (channel) chosen.set(spot, channel);
  }
  return spots.flatMap((s) => chosen.get(s) ?? []);
}

/** Eight inputs that ask next to nothing of the memory, eight outputs that guarantee a lamp's current. inputs: the memory's data rows, as many as are used. */
export function putBuffer(draft: Draft, wish: Wish, board: PlanBoard, inputs: readonly Row[]): Source[] {
  const buffer = seat(draft, octalBuffer, { prefix: 'U', at: { board, column: 'e', row: BUFFER_ROW }, params: BUFFER_FAMILY });
  const chip = chipOf(octalBuffer, completed(octalBuffer, { id: buffer.id, kind: octalBuffer.id, params: BUFFER_FAMILY }));
  feed(draft, buffer, chip.supplyPin, chip.groundPin);
  for (const enable of ['/1G', '/2G']) tie(draft, buffer.row(enable), '-', 'grey');
  const { arrangement = 'row' } = wish;
  const used = arrangement === 'row' ? CHANNELS.slice(0, inputs.length) : channelsTo(lampSpots(board, arrangement, inputs.length));
  const sources = used.flatMap(({ group, n }, bit): Source[] => {
    const from = inputs[bit];
    if (!from) return [];
    lead(draft, tap(draft, from), tap(draft, buffer.row(`${group}A${n}`)), colourOf(bit));
    return [{ row: buffer.row(`${group}Y${n}`), chip }];
  });
  for (const c of CHANNELS) if (!used.includes(c)) tie(draft, buffer.row(`${c.group}A${c.n}`), '-', 'grey');
  return sources;
}

interface Hung {
  readonly wish: Wish;
  readonly board: PlanBoard;
  readonly sources: readonly Source[];
  readonly outputs: readonly WishedOutput[];
}

/** Returns the lamp of each output. */
export function putLoads(draft: Draft, hung: Hung): string[] {
  const put: Readonly<Record<Show, (draft: Draft, hung: Hung) => string[]>> = { lamps: putLamps, digit: putDigit, bar: putBar };
  return put[hung.wish.show](draft, hung);
}

/** The resistor for the lamp at one pin of a part. */
function limit({ wish, outputs }: Hung, source: Source, lamp: KindSheet['lamps'][number] | undefined, activeLow: boolean): number {
  if (!lamp) throw new Error('a lamp part without a lamp');
  return limitFor({ ...lamp, chip: source.chip, side: activeLow ? 'low' : 'high', lamps: outputs.length }, wish.amps).ohms;
}

/** One lamp an output; the resistor goes from its far leg to minus, or for an output that is active low to plus. */
function putLamps(draft: Draft, hung: Hung): string[] {
  const spots = lampSpots(hung.board, hung.wish.arrangement ?? 'row', hung.outputs.length);
  return hung.outputs.map((output, bit) => {
    const source = sourceOf(hung, bit);
    const spot = spots[bit];
    if (!spot) throw new Error(`the builder has no place for lamp ${bit}`);
    const { near, far } = spot;
    const colour = output.colour ?? LAMP_COLOURS[bit % LAMP_COLOURS.length] ?? 'red';
    const params = { colour };
    const [driven, fixed] = [takeAt(draft, near.row, near.column), takeAt(draft, far.row, far.column)];
    const [at, to] = output.activeLow ? [fixed, driven] : [driven, fixed];
    const id = bridge(draft, led, 'D', at, to, { params, label: output.name });
    const ohms = limit(hung, source, sheetOf(led, completed(led, { id, kind: led.id, params })).lamps[0], output.activeLow === true);
    bridge(draft, resistor, 'R', tap(draft, far.row), railBeside(draft, far.row, output.activeLow ? '+' : '-'), { params: { ohms } });
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
  const { lamps } = sheetOf(kind, completed(kind, { id: digit.id, kind: kind.id, params }));
  tie(draft, digit.row('COM'), activeLow ? '+' : '-');
  return hung.outputs.map((_, bit) => {
    const source = sourceOf(hung, bit);
    const segment = [...SEGMENTS, 'DP'][bit] ?? 'DP';
    const ohms = limit(
      hung,
      source,
      lamps.find((l) => l.lamp.name === segment),
      activeLow,
    );
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
    const ohms = limit(hung, source, lamp, activeLow);
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
