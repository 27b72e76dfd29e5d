/** Which way through the buffer each output takes: on the side of what it drives, or else on that of its data pin, and beside its neighbours' ways so that wires need not cross. */
import type { Row } from './builder-state.ts';

/** Where a wire arrives. side: absent where either will do. */
export interface Arrival {
  readonly row: number;
  readonly side?: Row['side'];
}

/** One way through the buffer: its group, and its number in it. */
export interface BufferChannel {
  readonly group: 1 | 2;
  readonly n: number;
}

/** Group 1 goes in below and comes out above, group 2 the other way round; from the package's left end to its right. */
export const CHANNELS: Readonly<Record<BufferChannel['group'], readonly BufferChannel[]>> = {
  1: [1, 2, 3, 4].map((n) => ({ group: 1, n })),
  2: [4, 3, 2, 1].map((n) => ({ group: 2, n })),
};
const ROOM = 4;

interface Way {
  readonly bit: number;
  readonly from: Row;
  readonly to: Arrival;
}

/** A channel for each output. inputs: the memory's data rows; targets: what each drives. inStep: the channels keep the order of the targets, as straight resistors do. */
export function channelsFor(inputs: readonly Row[], targets: readonly Arrival[], inStep: boolean): BufferChannel[] {
  const ways = inputs.map((from, bit): Way => ({ bit, from, to: targets[bit] ?? { row: 0 } }));
  const groupOf = ({ from, to }: Way): BufferChannel['group'] => ((to.side ? to.side === 'upper' : from.side === 'lower') ? 1 : 2);
  const groups: Readonly<Record<BufferChannel['group'], Way[]>> = {
    1: ways.filter((w) => groupOf(w) === 1),
    2: ways.filter((w) => groupOf(w) === 2),
  };
  for (const group of [1, 2] as const) {
    const other = groups[group === 1 ? 2 : 1];
    // what is on its side by its data pin alone crosses first, nearest to the gap between the chips
    groups[group].sort((a, b) => crossing(a, group) - crossing(b, group));
    other.push(...groups[group].splice(ROOM));
  }
  const chosen = new Map<number, BufferChannel>();
  for (const group of [1, 2] as const) {
    const inOrder = [...groups[group]].sort((a, b) => (inStep ? a.to.row - b.to.row : outOf(b, group) - outOf(a, group) || a.bit - b.bit));
    for (const [k, { bit }] of inOrder.entries()) {
      const channel = CHANNELS[group][k];
      if (channel) chosen.set(bit, channel);
    }
  }
  return ways.flatMap(({ bit }) => chosen.get(bit) ?? []);
}

/** How ready a way is to go through the other group: the higher the readier. */
const crossing = ({ from, to }: Way, group: BufferChannel['group']): number =>
  (to.side ? 0 : 1000) + ((from.side === 'lower') === (group === 1) ? 0 : 500) + from.row;

/** Data pins from the gap outwards: those that come round from the memory's other side lie inside. */
const outOf = ({ from }: Way, group: BufferChannel['group']): number => from.row + ((from.side === 'lower') === (group === 1) ? 0 : 100);
