/** How every byte-wide memory reads: which levels put it on the bus, and how long its outputs are unknown after address, enables or supply have moved. */
import { OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import type { Partly } from '../../units/partial-number.ts';
import { supplyHysteresis } from '../logic/supply-hysteresis.ts';
import type { ChipBench, Level, PinAddress } from '../part.ts';

/** All in seconds: data valid at most so long after address, chip enable, output enable; outputs let go at most so long after an enable ends. */
export interface ReadTiming {
  readonly access: number;
  readonly chipEnable: number;
  readonly outputEnable: number;
  readonly float: number;
  readonly source: string;
}

/** An input that enables something: its position in the chip's list of inputs, and its active level. */
export interface Enable {
  readonly input: number;
  readonly active: 'L' | 'H';
}

export interface ReadPins {
  /** positions in the chip's list of inputs, least significant first */
  readonly address: readonly number[];
  /** all of them select the chip */
  readonly select: readonly Enable[];
  /** absent: selecting alone puts it on the bus */
  readonly outputEnable?: Enable;
  /** while it is active, the outputs are off */
  readonly writeEnable?: Enable;
}

/** Low or high. */
const EITHER = (1 << PULL_LOW) | (1 << PULL_HIGH);
/** Supply at which a chip does anything at all [V]; from memory. */
export const ALIVE = 2;

/** All at their active level, one surely not, or nobody can tell. */
export function allActive(bench: ChipBench, enables: readonly Enable[]): 'yes' | 'no' | 'perhaps' {
  let answer: 'yes' | 'perhaps' = 'yes';
  for (let k = 0; k < enables.length; k++) {
    const { input, active } = enables[k] as Enable;
    const level = bench.level(input);
    if (level === 'X') answer = 'perhaps';
    else if (level !== active) return 'no';
  }
  return answer;
}

/** The number that these inputs show. */
export function gather(bench: ChipBench, inputs: readonly number[]): Partly {
  let value = 0;
  let unknown = 0;
  for (let bit = 0; bit < inputs.length; bit++) {
    const level = bench.level(inputs[bit] as number);
    if (level === 'H') value |= 1 << bit;
    else if (level === 'X') unknown |= 1 << bit;
  }
  return { value, unknown };
}

/** What the outputs stand for, if they are on the bus. */
export interface ReadPath {
  address(): PinAddress;
  /** when it last moved [s] */
  addressAt(): number;
  shown(): Partly | undefined;
  alive(): boolean;
  /** do the outputs drive the bus? */
  onBus(): 'yes' | 'no' | 'perhaps';
  begin(now: number): void;
  /** this address input has moved */
  addressMoved(input: number, now: number): void;
  /** one of the enables has moved */
  enableMoved(input: number, now: number): void;
  /** outputs are unknown from now until the access times have run off; what they pull stays until then */
  disturb(now: number): void;
  /** the supply has crossed one of the chip's marks; only ALIVE counts here */
  supplyCrossed(mark: number, rising: boolean, now: number): void;
  /** an alarm has gone off; true if it means that the supply is gone */
  alarm(name: string, now: number): boolean;
}

/**
 * byte: what stands at an address. Outputs 0 … 7 of the chip are the word. sure: false while something beside the enables makes what is read unknowable.
 */
export function makeReadPath(
  bench: ChipBench,
  pins: ReadPins,
  timing: ReadTiming,
  byte: (address: Partly) => Partly,
  sure: () => boolean = () => true,
): ReadPath {
  const { outputEnable, writeEnable } = pins;
  const others = outputEnable ? [outputEnable] : [];
  const reading = [...pins.select, ...others, ...(writeEnable ? [{ input: writeEnable.input, active: opposite(writeEnable.active) }] : [])];
  // times of the last changes [s]; −∞: long ago
  let addressAt = Number.NEGATIVE_INFINITY;
  let selectAt = Number.NEGATIVE_INFINITY;
  let outputEnableAt = Number.NEGATIVE_INFINITY;
  let settledAt = Number.NEGATIVE_INFINITY;
  const bits = pins.address.length;
  let address: PinAddress = { value: 0, unknown: 0, bits };
  let shown: Partly | undefined;
  let was: 'yes' | 'no' | 'perhaps' = 'perhaps';

  const supply = supplyHysteresis(bench, ALIVE);
  const alive = () => supply.on();
  const onBus = () => {
    const all = alive() ? allActive(bench, reading) : 'no';
    return all === 'yes' && !sure() ? 'perhaps' : all;
  };

  const present = () => {
    const on = onBus();
    const now = byte(address);
    shown = on === 'no' ? undefined : on === 'yes' ? now : { value: 0, unknown: 0xff };
    for (let bit = 0; bit < 8; bit++) {
      const pull = (now.value >> bit) & 1 ? PULL_HIGH : PULL_LOW;
      const unsure = (now.unknown >> bit) & 1;
      if (on === 'no') bench.drive(bit, OFF);
      else if (on === 'yes' && !unsure) bench.drive(bit, pull);
      // perhaps on the bus: off, or what is stored
      else bench.perhaps(bit, (unsure ? EITHER : 1 << pull) | (on === 'yes' ? 0 : 1 << OFF));
    }
    // whatever it can do at this supply, a selected chip takes its current
    bench.draw(allActive(bench, pins.select) === 'yes' ? 'working' : 'resting');
    was = on;
  };

  const disturb = (now: number) => {
    const on = onBus();
    const stays = on === 'no' && was === 'no';
    was = on;
    if (stays) {
      bench.draw(allActive(bench, pins.select) === 'yes' ? 'working' : 'resting');
      return;
    }
    settledAt =
      on === 'no'
        ? now + timing.float
        : Math.max(now, addressAt + timing.access, selectAt + timing.chipEnable, outputEnableAt + timing.outputEnable);
    if (!alive()) {
      present();
      return;
    }
    for (let bit = 0; bit < 8; bit++) bench.doubt(bit);
    shown = on === 'no' ? undefined : { value: 0, unknown: 0xff };
    bench.alarm(settledAt, 'outputs');
  };

  return {
    address() {
      return address;
    },
    addressAt() {
      return addressAt;
    },
    shown() {
      return shown;
    },
    alive,
    onBus,
    begin(now) {
      supply.begin();
      address = { ...gather(bench, pins.address), bits };
      settledAt = now;
      present();
    },
    addressMoved(input, now) {
      const place = 1 << pins.address.indexOf(input);
      const level = bench.level(input);
      const value = level === 'H' ? address.value | place : address.value & ~place;
      const unknown = level === 'X' ? address.unknown | place : address.unknown & ~place;
      address = { value, unknown, bits };
      addressAt = now;
    },
    enableMoved(input, now) {
      if (pins.select.some((s) => s.input === input)) selectAt = now;
      else outputEnableAt = now;
    },
    disturb,
    supplyCrossed(mark, rising, now) {
      if (mark === ALIVE && supply.crossed(rising, now)) disturb(now);
    },
    alarm(name, now) {
      if (name === 'outputs' && now >= settledAt) present();
      const gone = supply.alarm(name, now);
      if (gone) disturb(now);
      return gone;
    },
  };
}

const opposite = (level: Level): 'L' | 'H' => (level === 'L' ? 'H' : 'L');
