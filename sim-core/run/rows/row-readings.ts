/** What is read off a row that was solved without events: the address and the byte of each memory, the current of each LED. */
import { OFF, PULL_HIGH } from '../../devices/network.ts';
import { gatherIn } from '../../parts/memory/read-path.ts';
import type { PinAddress } from '../../parts/part.ts';
import type { Partly } from '../../units/hex.ts';
import type { Circuit } from '../circuit/circuit.ts';
import { readLed } from '../readout/measure.ts';
import { BRIGHTNESSES, type Brightness, type LedReading } from '../readout/readings.ts';

/** data: absent while the outputs are off. */
export interface MemoryReading {
  readonly part: string;
  readonly address: PinAddress;
  readonly data?: Partly;
}

export interface RowReadings {
  readonly memories: readonly MemoryReading[];
  readonly leds: readonly LedReading[];
}

/** levels, pulls: by chip, what its inputs read and what each of its outputs pulls. */
export function readMemories({ chips }: Circuit, levels: readonly Partly[], pulls: readonly Uint8Array[]): MemoryReading[] {
  return chips.flatMap(({ placed, spec: { word }, inputs, outputs }, k) => {
    const there = levels[k];
    if (!word || !there) return [];
    const places = word.address.map((name) => inputs.findIndex((i) => i.name === name));
    const bits = word.data.map((name) => pulls[k]?.[outputs.findIndex((o) => o.name === name)] ?? OFF);
    const value = bits.reduce<number>((byte, pull, bit) => (pull === PULL_HIGH ? byte | (1 << bit) : byte), 0);
    const address = { ...gatherIn(there, places), bits: places.length };
    return [{ part: placed.part.id, address, ...(bits.every((pull) => pull === OFF) ? {} : { data: { value, unknown: 0 } }) }];
  });
}

/** x: all node voltages [V]. looks: places in BRIGHTNESSES. */
export function readLeds(circuit: Circuit, x: Float64Array, looks: Uint8Array): LedReading[] {
  return circuit.leds.map((site, i) => readLed(circuit, site, x, BRIGHTNESSES[looks[i] as number] as Brightness));
}
