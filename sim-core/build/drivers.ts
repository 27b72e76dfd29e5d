/** The chip between a memory's data pins and the loads of its outputs: a buffer for LEDs, or an array of Darlington switches for loads. */
import type { PlanBoard } from '../../shared/plan.ts';
import { darlingtonArray8 } from '../parts/darlington-array.ts';
import { octalBuffer } from '../parts/octal-buffer.ts';
import type { ChipSpec } from '../parts/part.ts';
import { type Arrival, CHANNELS, channelsFor } from './buffer-channels.ts';
import { type BuilderState, completed, connect, type Row, seat, takeFreeHole, tie } from './builder-state.ts';
import { feed } from './common-sections.ts';
import { chipOf } from './kind-contents.ts';

/** Where an LED's wire comes from, and the chip that gives or takes its current. */
export interface Source {
  readonly row: Row;
  readonly chip: ChipSpec;
}

const WIRE_COLOURS = ['orange', 'yellow', 'green', 'turquoise', 'violet', 'pink', 'brown', 'white'] as const;
export const colourOf = (bit: number): string => WIRE_COLOURS[bit % WIRE_COLOURS.length] ?? 'white';

const BUFFER_FAMILY = { family: 'HCT' } as const;

export const bufferChip = (): ChipSpec =>
  chipOf(octalBuffer, completed(octalBuffer, { id: '', kind: octalBuffer.id, params: BUFFER_FAMILY }));
export const driverChip = (): ChipSpec => chipOf(darlingtonArray8, {});

/** A chip of this kind and what it stands between. row: of its left end; inputs: the memory's data rows, as many as are used; targets: where each output's wire arrives. */
export interface DriverPlace {
  readonly board: PlanBoard;
  readonly row: number;
  readonly inputs: readonly Row[];
  readonly targets: readonly Arrival[];
}

/** Eight inputs that ask next to nothing of the memory, eight outputs that guarantee an LED's current. inStep: outputs lie in the order of their targets. */
export function putBuffer(state: BuilderState, { board, row, inputs, targets }: DriverPlace, inStep: boolean): Source[] {
  const buffer = seat(state, octalBuffer, { prefix: 'U', at: { board, column: 'e', row }, params: BUFFER_FAMILY });
  const chip = bufferChip();
  feed(state, buffer, chip.supplyPin, chip.groundPin);
  for (const enable of ['/1G', '/2G']) tie(state, buffer.row(enable), '-', 'grey');
  const used = channelsFor(inputs, targets, inStep);
  const sources = used.flatMap(({ group, n }, bit): Source[] => {
    const from = inputs[bit];
    if (!from) return [];
    connect(state, takeFreeHole(state, from), takeFreeHole(state, buffer.row(`${group}A${n}`)), colourOf(bit));
    return [{ row: buffer.row(`${group}Y${n}`), chip }];
  });
  for (const c of [...CHANNELS[1], ...CHANNELS[2]]) if (!used.includes(c)) tie(state, buffer.row(`${c.group}A${c.n}`), '-', 'grey');
  return sources;
}

/** Eight switches that pull their loads down; what their coils give back goes to plus. The nearest load is driven from the chip's near end. */
export function putDriver(state: BuilderState, { board, row, inputs }: DriverPlace): Source[] {
  const driver = seat(state, darlingtonArray8, { prefix: 'U', at: { board, column: 'e', row } });
  const chip = driverChip();
  tie(state, driver.row('GND'), '-');
  tie(state, driver.row('COM'), '+');
  const last = chip.outputs.length - 1;
  const sources = inputs.flatMap((from, bit): Source[] => {
    const [into, out] = [chip.inputs[last - bit], chip.outputs[last - bit]];
    if (into === undefined || out === undefined) return [];
    connect(state, takeFreeHole(state, from), takeFreeHole(state, driver.row(into)), colourOf(bit));
    return [{ row: driver.row(out), chip }];
  });
  for (const unused of chip.inputs.slice(0, last + 1 - inputs.length)) tie(state, driver.row(unused), '-', 'grey');
  return sources;
}
