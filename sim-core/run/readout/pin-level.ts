/** The level of a chip's pin in the letters of its data sheet: what it drives, what it reads, or that it has let go. */
import { OFF, PULL_HIGH } from '../../devices/network.ts';
import type { ChipState, Level } from '../../parts/part.ts';
import type { ChipSite } from '../circuit/sites.ts';
import { isSure, type RunningChip } from '../digital/chip-runtime.ts';

/** Where a pin stands in its chip's lists of inputs and outputs; −1: in neither. */
export interface PinPlace {
  readonly pin: string;
  readonly name: string;
  readonly input: number;
  readonly output: number;
}

/** In the order of the package. */
export const pinPlaces = ({ placed, inputs, outputs }: ChipSite): readonly PinPlace[] =>
  placed.kind.pins(placed.params).map(({ pin, name }) => ({
    pin,
    name,
    input: inputs.findIndex((p) => p.name === name),
    output: outputs.findIndex((o) => o.name === name),
  }));

/** null for a pin that has no logic level; Z for an output that has let go. */
export function pinLevel(socket: RunningChip, { input, output }: PinPlace, doing: ChipState['doing']): Level | 'Z' | null {
  if (output >= 0) {
    if (!isSure(socket.may[output] as number)) return 'X';
    if (socket.pull[output] !== OFF) return socket.pull[output] === PULL_HIGH ? 'H' : 'L';
    if (input < 0 || doing !== 'ready to write') return 'Z';
  }
  return socket.level[input] ?? null;
}
