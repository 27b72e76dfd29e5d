/** The board that hands work on: a pole an input, and for writing a pole a data bit, one for the enable and a button a memory. */
import type { PlanBoard } from '../../shared/plan.ts';
import { dipSwitch } from '../parts/dip-switch.ts';
import { resistor } from '../parts/resistor.ts';
import { type BuilderState, bridge, connect, type Row, railBeside, seat, takeFreeHole } from './builder-state.ts';
import { colourOf } from './drivers.ts';
import { putWriteNetwork, type WriteNetwork } from './write-network.ts';

/** One pole and the row that it sets: closed is high. */
interface Pole {
  /** rows that it sets */
  readonly to: readonly Row[];
  readonly pullDown: number;
  /** between the rail and the switch [Ω]; 0: a wire */
  readonly series: number;
  readonly colour: string;
  /** what the pole is called; '' for no name */
  readonly name: string;
}

/** Most poles in one switch. */
const MOST_POLES = 12;

/** As few switches as take so many poles, each as long as the others or a pole shorter: 16 poles are two switches of 8. */
export function inputSwitches(poles: number): ReadonlyArray<{ readonly begin: number; readonly count: number }> {
  const switches = Math.ceil(poles / MOST_POLES);
  const begin = (k: number) => Math.ceil((k * poles) / switches);
  return Array.from({ length: switches }, (_, k) => ({ begin: begin(k), count: begin(k + 1) - begin(k) }));
}
/** Rows that a write network takes, the name of its resistor included. */
const WRITE_CONTROL_ROWS = 9;

/** The board, and the first row on it that is still free. */
export interface SwitchBoard {
  readonly board: PlanBoard;
  next: number;
}

export const newSwitchBoard = (board: PlanBoard): SwitchBoard => ({ board, next: 3 });

/**
 * Puts switches, the highest bit on the left as a number is written and as address pins stand, so that wires need not cross; the lower side to plus and the
 * upper side held low by a resistor. Returns the switches' ids.
 */
function putPoles(state: BuilderState, onto: SwitchBoard, bits: readonly Pole[], label: string): string[] {
  const { board } = onto;
  const poles = [...bits].reverse();
  const ids: string[] = [];
  for (const { begin, count } of inputSwitches(poles.length)) {
    const some = poles.slice(begin, begin + count);
    const row = onto.next;
    onto.next += some.length + 1;
    const name = poles.length > count ? `${label} ${poles.length - begin} to ${poles.length - begin - count + 1}` : label;
    ids.push(
      seat(state, dipSwitch, {
        prefix: 'S',
        at: { board, column: 'e', row },
        params: { poles: some.length },
        label: name,
        poleNames: some.map((p) => p.name),
      }).id,
    );
    for (const [k, { to, pullDown, series, colour }] of some.entries()) {
      const lower: Row = { board, row: row + k, side: 'lower' };
      const upper: Row = { ...lower, side: 'upper' };
      if (series > 0) bridge(state, resistor, 'R', takeFreeHole(state, lower), railBeside(state, lower, '+'), { params: { ohms: series } });
      else connect(state, railBeside(state, lower, '+'), takeFreeHole(state, lower), 'red');
      let from = upper;
      for (const next of to) {
        connect(state, takeFreeHole(state, from), takeFreeHole(state, next), colour);
        from = next;
      }
      bridge(state, resistor, 'R', takeFreeHole(state, upper), railBeside(state, upper, '-'), { params: { ohms: pullDown } });
    }
  }
  return ids;
}

/** inputs: each with its name, which its pole gets too, and the rows of its address pin, the nearest memory first. Of names alike but for capitals the first counts. */
export function putInputs(
  state: BuilderState,
  onto: SwitchBoard,
  inputs: ReadonlyArray<{ readonly name: string; readonly to: readonly Row[] }>,
  pullDown: number,
): string[] {
  const isFirst = (name: string, i: number) => inputs.findIndex((o) => o.name.toLowerCase() === name.toLowerCase()) === i;
  return putPoles(
    state,
    onto,
    inputs.map(({ name, to }, i) => ({ to, pullDown, series: 0, colour: colourOf(i), name: isFirst(name, i) ? name : '' })),
    'inputs',
  );
}

/** Closed, the pole takes the output enables high and the memories' data pins are high-impedance. */
export function putEnable(state: BuilderState, onto: SwitchBoard, enables: readonly Row[], pullDown: number): string[] {
  return putPoles(state, onto, [{ to: enables, pullDown, series: 0, colour: 'violet', name: '' }], '/OE');
}

export interface WriteControls {
  readonly data: readonly Row[];
  readonly strobe: Row;
  readonly pullDown: number;
  readonly series: number;
  readonly network: WriteNetwork;
}

/** What writes one memory. memory: its name, where there are several. Returns the ids of the data switch and of the button. */
export function putWriteControls(
  state: BuilderState,
  onto: SwitchBoard,
  w: WriteControls,
  memory?: string,
): { data: string; button: string } {
  const named = (what: string) => (memory === undefined ? what : `${what} ${memory}`);
  const poles = w.data.map((row, bit): Pole => ({ to: [row], pullDown: w.pullDown, series: w.series, colour: colourOf(bit), name: '' }));
  const [data = ''] = putPoles(state, onto, poles, named('data'));
  const at: Row = { board: onto.board, row: onto.next + 1, side: 'upper' };
  onto.next += WRITE_CONTROL_ROWS;
  return { data, button: putWriteNetwork(state, w.network, at, w.strobe, named('write')) };
}
