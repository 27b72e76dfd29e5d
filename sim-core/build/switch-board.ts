/** The board that hands work on: a pole an input, and for writing a pole a data bit, one for the enable and a button a memory. */
import type { PlanBoard } from '../../shared/plan.ts';
import { dipSwitch } from '../parts/dip-switch.ts';
import { resistor } from '../parts/resistor.ts';
import { type BuilderState, bridge, connect, type Row, railHolesBeside, seat, takeFreeHole } from './builder-state.ts';
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
/** Where a switch stands: its board, the row of its left pole, and the side of the trench on which its wires leave, towards the memory. */
export interface SwitchPlace {
  readonly board: PlanBoard;
  readonly row: number;
  readonly out: Row['side'];
}

/**
 * Puts switches, the highest bit on the left as a number is written and as address pins stand, so that wires need not cross; the far side to plus and the
 * side whose wires leave held low by a resistor. Returns the switches' ids.
 */
function putPoles(state: BuilderState, { board, row: first, out }: SwitchPlace, bits: readonly Pole[], label: string): string[] {
  const poles = [...bits].reverse();
  const fed = out === 'upper' ? 'lower' : 'upper';
  return inputSwitches(poles.length).map(({ begin, count }, s) => {
    const some = poles.slice(begin, begin + count);
    // one row between two switches
    const row = first + begin + s;
    const name = poles.length > count ? `${label} ${poles.length - begin} to ${poles.length - begin - count + 1}` : label;
    const { id } = seat(state, dipSwitch, {
      prefix: 'S',
      at: { board, column: 'e', row },
      params: { poles: some.length },
      label: name,
      poleNames: some.map((p) => p.name),
    });
    const nears = some.map((_, k): Row => ({ board, row: row + k, side: out }));
    const fars = nears.map((near): Row => ({ ...near, side: fed }));
    const [plus, minus] = [railHolesBeside(state, fars, '+'), railHolesBeside(state, nears, '-')];
    for (const [k, { to, pullDown, series, colour }] of some.entries()) {
      const [near, far] = [nears[k] as Row, fars[k] as Row];
      const [high = '', low = ''] = [plus[k], minus[k]];
      if (series > 0) bridge(state, resistor, 'R', takeFreeHole(state, far), high, { params: { ohms: series } });
      else connect(state, high, takeFreeHole(state, far), 'red');
      let from = near;
      for (const next of to) {
        connect(state, takeFreeHole(state, from), takeFreeHole(state, next), colour);
        from = next;
      }
      bridge(state, resistor, 'R', takeFreeHole(state, near), low, { params: { ohms: pullDown } });
    }
    return id;
  });
}

/** Rows that the switches of so many poles take. */
export const rowsOfSwitches = (poles: number): number => poles + inputSwitches(poles).length - 1;

/** inputs: each with its name, which its pole gets too, and the rows of its address pin, the nearest memory first. Of names alike but for capitals the first counts. */
export function putInputs(
  state: BuilderState,
  onto: SwitchPlace,
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
export function putEnable(state: BuilderState, onto: SwitchPlace, enables: readonly Row[], pullDown: number): string[] {
  return putPoles(state, onto, [{ to: enables, pullDown, series: 0, colour: 'violet', name: '' }], '/OE');
}

export interface WriteControls {
  readonly data: readonly Row[];
  readonly strobe: Row;
  readonly pullDown: number;
  readonly series: number;
  readonly network: WriteNetwork;
}

/** What writes one memory, above it. strip: row of the strobe's network; memory: its name, where there are several. Returns the ids of the data switch and of the button. */
export function putWriteControls(
  state: BuilderState,
  onto: SwitchPlace,
  strip: number,
  w: WriteControls,
  memory?: string,
): { data: string; button: string } {
  const named = (what: string) => (memory === undefined ? what : `${what} ${memory}`);
  const poles = w.data.map((row, bit): Pole => ({ to: [row], pullDown: w.pullDown, series: w.series, colour: colourOf(bit), name: '' }));
  const [data = ''] = putPoles(state, onto, poles, named('data'));
  const at: Row = { board: onto.board, row: strip, side: onto.out };
  return { data, button: putWriteNetwork(state, w.network, at, w.strobe, named('write')) };
}
