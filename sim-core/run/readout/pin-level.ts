/** The level of a chip's pin in the letters of its data sheet: what it drives, what it reads, or that it is high-impedance. */
import { OFF, PULL_HIGH } from '../../devices/network.ts';
import type { ChipState, Level } from '../../parts/part.ts';
import type { ChipSite } from '../circuit/sites.ts';
import { isSure, type RunningChip } from '../digital/chip-slot.ts';

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

/** null for a pin that has no logic level; Z for one that is high-impedance. */
export function pinLevel(slot: RunningChip, { input, output }: PinPlace, doing: ChipState['doing']): Level | 'Z' | null {
  if (output >= 0) {
    if (!isSure(slot.may[output] as number)) return 'X';
    if (slot.pull[output] !== OFF) return slot.pull[output] === PULL_HIGH ? 'H' : 'L';
    if (input < 0 || doing !== 'ready to write') return 'Z';
  }
  return slot.level[input] ?? null;
}
