/** The sections every build begins with: the supply on its rails, and a memory whose pins are all tied that no one else will use. */
import { benchSupply } from '../parts/bench-supply.ts';
import { capacitor } from '../parts/capacitor.ts';
import type { PartKind } from '../parts/part.ts';
import {
  type BuilderState,
  bridge,
  completed,
  connect,
  nextId,
  railBeside,
  type SeatedPart,
  seat,
  takeFreeHole,
  takeRailHole,
  tie,
} from './builder-state.ts';
import { chipOf } from './kind-contents.ts';

/** Beside every chip, from its supply pin to the rail [F]. Common practice, no source. */
const DECOUPLING = 100e-9;

/** Each sign's wires, the second of two a row farther in. */
const RAILS_JOINED = [
  ['+', 'red', 0],
  ['-', 'black', 1],
] as const;

/** The supply beside the first board, all rails of all boards joined, each to the board below. Returns the supply's id. */
export function power(state: BuilderState): string {
  const id = nextId(state, 'PS');
  state.parts.push({ id, kind: benchSupply.id, spot: [-16, 1] });
  const [first] = state.boards;
  for (const [sign, colour, at] of RAILS_JOINED)
    if (first) connect(state, `${id}.${sign}`, takeRailHole(state, first, `${sign}j`, 1 + at), colour);
  const downwards = [...state.boards].sort((a, b) => a.spot[1] - b.spot[1]);
  for (const [i, board] of downwards.entries()) {
    const above = downwards[i - 1];
    const last = board.kind === 'board-63' ? 61 : 28;
    for (const [sign, colour, at] of RAILS_JOINED) {
      if (above) connect(state, takeRailHole(state, above, `${sign}a`, 2 + at), takeRailHole(state, board, `${sign}j`, 2 + at), colour);
      connect(state, takeRailHole(state, board, `${sign}j`, last - at), takeRailHole(state, board, `${sign}a`, last - at), colour);
    }
  }
  return id;
}

type Corner = Parameters<typeof seat>[2]['at'];

/** A memory with its supply, its decoupling and its enables. fixed: levels of single pins, null for those that somebody else will wire. */
export function bareMemory(state: BuilderState, kind: PartKind, at: Corner, fixed: Readonly<Record<string, 'L' | 'H' | null>>): SeatedPart {
  const memory = seat(state, kind, { prefix: 'U', at });
  const spec = chipOf(kind, completed(kind, { id: memory.id, kind: kind.id }));
  feed(state, memory, spec.supplyPin, spec.groundPin);
  const levels: Readonly<Record<string, 'L' | 'H' | null>> = { ...spec.toRead, ...fixed };
  for (const pin of kind.pins(completed(kind, { id: memory.id, kind: kind.id }))) {
    if (pin.role === 'supply' && pin.name !== spec.supplyPin) tie(state, memory.row(pin.name), '+');
    const level = levels[pin.name];
    if (level) tie(state, memory.row(pin.name), level === 'H' ? '+' : '-', level === 'H' ? 'orange' : 'grey');
  }
  return memory;
}

/** Supply, ground and decoupling of a chip. */
export function feed(state: BuilderState, chip: SeatedPart, supplyPin: string, groundPin: string): void {
  tie(state, chip.row(supplyPin), '+');
  tie(state, chip.row(groundPin), '-');
  bridge(state, capacitor, 'C', takeFreeHole(state, chip.row(supplyPin)), railBeside(state, chip.row(supplyPin), '-'), {
    params: { farads: DECOUPLING },
  });
}
