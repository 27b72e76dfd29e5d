/** The chip between a memory's data pins and the loads of its outputs: a buffer for LEDs, or an array of Darlington switches for loads. */
import type { PlanBoard } from '../../shared/plan.ts';
import { darlingtonArray8 } from '../parts/darlington-array.ts';
import { octalBuffer } from '../parts/octal-buffer.ts';
import type { ChipSpec } from '../parts/part.ts';
import type { BuildRequest } from './build-request.ts';
import { type BuilderState, completed, connect, type Row, seat, takeFreeHole, tie } from './builder-state.ts';
import { feed } from './common-sections.ts';
import { chipOf } from './kind-contents.ts';
import { type LedSpot, ledSpots } from './led-placement.ts';

/** Where an LED's wire comes from, and the chip that gives or takes its current. */
export interface Source {
  readonly row: Row;
  readonly chip: ChipSpec;
}

const WIRE_COLOURS = ['orange', 'yellow', 'green', 'turquoise', 'violet', 'pink', 'brown', 'white'] as const;
export const colourOf = (bit: number): string => WIRE_COLOURS[bit % WIRE_COLOURS.length] ?? 'white';

const BUFFER_ROW = 20;
const BUFFER_FAMILY = { family: 'HCT' } as const;

export const bufferChip = (): ChipSpec =>
  chipOf(octalBuffer, completed(octalBuffer, { id: '', kind: octalBuffer.id, params: BUFFER_FAMILY }));
export const driverChip = (): ChipSpec => chipOf(darlingtonArray8, {});

/** One way through the buffer: its group, its number in it, and which side of the package it comes out at, how far from the package's left end. */
interface Channel {
  readonly group: number;
  readonly n: number;
  readonly side: Row['side'];
  readonly from: number;
}

/** From one end of the package to the other, so that wires lie beside each other: the first four come out above, the others below, right to left. */
const CHANNELS = Array.from({ length: 8 }, (_, k): Channel => {
  const n = (k % 4) + 1;
  return k < 4 ? { group: 1, n, side: 'upper', from: n } : { group: 2, n, side: 'lower', from: 5 - n };
});

/** A channel for each LED on the side where its wire ends, the nearest LED's from the package's near end, so that the wires lie inside each other. */
function channelsTo(spots: readonly LedSpot[]): Channel[] {
  const free = [...CHANNELS].sort((a, b) => b.from - a.from);
  const chosen = new Map<LedSpot, Channel>();
  for (const spot of [...spots].sort((a, b) => a.near.row.row - b.near.row.row)) {
    const own = free.findIndex((c) => c.side === spot.near.row.side);
    const [channel] = free.splice(Math.max(0, own), 1);
    if (channel) chosen.set(spot, channel);
  }
  return spots.flatMap((s) => chosen.get(s) ?? []);
}

/** Eight inputs that ask next to nothing of the memory, eight outputs that guarantee an LED's current. inputs: the memory's data rows, as many as are used. */
export function putBuffer(state: BuilderState, request: BuildRequest, board: PlanBoard, inputs: readonly Row[]): Source[] {
  const buffer = seat(state, octalBuffer, { prefix: 'U', at: { board, column: 'e', row: BUFFER_ROW }, params: BUFFER_FAMILY });
  const chip = bufferChip();
  feed(state, buffer, chip.supplyPin, chip.groundPin);
  for (const enable of ['/1G', '/2G']) tie(state, buffer.row(enable), '-', 'grey');
  const { arrangement = 'row' } = request;
  const used = arrangement === 'row' ? CHANNELS.slice(0, inputs.length) : channelsTo(ledSpots(board, arrangement, inputs.length));
  const sources = used.flatMap(({ group, n }, bit): Source[] => {
    const from = inputs[bit];
    if (!from) return [];
    connect(state, takeFreeHole(state, from), takeFreeHole(state, buffer.row(`${group}A${n}`)), colourOf(bit));
    return [{ row: buffer.row(`${group}Y${n}`), chip }];
  });
  for (const c of CHANNELS) if (!used.includes(c)) tie(state, buffer.row(`${c.group}A${c.n}`), '-', 'grey');
  return sources;
}

/** Eight switches that pull their loads down; what their coils give back goes to plus. inputs: the memory's data rows, as many as are used. */
export function putDriver(state: BuilderState, board: PlanBoard, inputs: readonly Row[]): Source[] {
  const driver = seat(state, darlingtonArray8, { prefix: 'U', at: { board, column: 'e', row: BUFFER_ROW } });
  const chip = driverChip();
  tie(state, driver.row('GND'), '-');
  tie(state, driver.row('COM'), '+');
  return chip.outputs.flatMap((output, bit): Source[] => {
    const into = driver.row(chip.inputs[bit] ?? '');
    const from = inputs[bit];
    if (!from) {
      tie(state, into, '-', 'grey');
      return [];
    }
    connect(state, takeFreeHole(state, from), takeFreeHole(state, into), colourOf(bit));
    return [{ row: driver.row(output), chip }];
  });
}
