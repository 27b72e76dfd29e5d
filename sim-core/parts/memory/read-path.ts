/** How every byte-wide memory reads: which levels put it on the bus, and how long its outputs are unknown after address, enables or supply have moved. */
import { OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import type { Partly } from '../../units/hex.ts';
import { supplyHysteresis } from '../logic/supply-hysteresis.ts';
import type { ChipBench, Level, PinAddress } from '../part.ts';

/** All in seconds: data valid at most so long after address, chip enable, output enable; outputs are high-impedance at most so long after an enable ends. */
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
const UNKNOWN_BYTE: Partly = { value: 0, unknown: 0xff };
/** Supply at which a chip does anything at all [V]; from memory. */
export const ALIVE = 2;

/** All at their active level, one certainly not, or unknown. */
export function allActive(bench: Pick<ChipBench, 'level'>, enables: readonly Enable[]): 'yes' | 'no' | 'perhaps' {
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
export function gather(bench: Pick<ChipBench, 'level'>, inputs: readonly number[]): Partly {
  let value = 0;
  let unknown = 0;
  for (let bit = 0; bit < inputs.length; bit++) {
    const level = bench.level(inputs[bit] as number);
    if (level === 'H') value |= 1 << bit;
    else if (level === 'X') unknown |= 1 << bit;
  }
  return { value, unknown };
}

/** Enables as bits of all inputs: which they are, and what they are at their active levels. */
export interface EnableBits {
  readonly which: number;
  readonly active: number;
}

export const enableBits = (enables: readonly Enable[]): EnableBits => ({
  which: enables.reduce((bits, { input }) => bits | (1 << input), 0),
  active: enables.reduce((bits, { input, active }) => (active === 'H' ? bits | (1 << input) : bits), 0),
});

/** `allActive` of the levels of all inputs at once. */
export function activeIn({ value, unknown }: Partly, { which, active }: EnableBits): 'yes' | 'no' | 'perhaps' {
  if ((value ^ active) & which & ~unknown) return 'no';
  return unknown & which ? 'perhaps' : 'yes';
}

/** `gather` of the levels of all inputs at once. */
export const gatherIn = ({ value, unknown }: Partly, inputs: readonly number[]): Partly => ({
  value: bitsAt(value, inputs),
  unknown: bitsAt(unknown, inputs),
});

/** These bits, side by side. */
function bitsAt(bits: number, places: readonly number[]): number {
  let found = 0;
  for (let k = 0; k < places.length; k++) found |= ((bits >> (places[k] as number)) & 1) << k;
  return found;
}

/** Whatever it can do at this supply, a selected chip takes its current. */
const DRAWN = { yes: 'working', perhaps: 'resting', no: 'resting' } as const;

/**
 * byte: what stands at an address. Outputs 0 … 7 of the chip are the word. sure: false while something beside the enables makes what is read unknowable.
 */
export class ReadPath {
  private readonly bench: ChipBench;
  private readonly pins: ReadPins;
  private readonly timing: ReadTiming;
  private readonly byte: (address: Partly) => Partly;
  private readonly sure: () => boolean;
  private readonly reading: Enable[];
  private readonly readingBits: EnableBits;
  private readonly selectBits: EnableBits;
  private readonly addressBits: number;
  /** the place of the first address input where all of them stand side by side among the inputs, or −1 */
  private readonly firstBit: number;
  /** an address of which every bit is known, written again by each question */
  private readonly asked = { value: 0, unknown: 0 };
  // times of the last changes [s]; −∞: long ago
  private addressMovedAt = Number.NEGATIVE_INFINITY;
  private selectAt = Number.NEGATIVE_INFINITY;
  private outputEnableAt = Number.NEGATIVE_INFINITY;
  private settledAt = Number.NEGATIVE_INFINITY;
  private readonly bits: number;
  private onPins: PinAddress;
  private onBusWord: Partly | undefined;
  private was: 'yes' | 'no' | 'perhaps' = 'perhaps';
  private readonly supply: import('../logic/supply-hysteresis.ts').SupplyHysteresis;

  constructor(bench: ChipBench, pins: ReadPins, timing: ReadTiming, byte: (address: Partly) => Partly, sure: () => boolean = () => true) {
    this.bench = bench;
    this.pins = pins;
    this.timing = timing;
    this.byte = byte;
    this.sure = sure;
    const { outputEnable, writeEnable } = this.pins;
    const others = outputEnable ? [outputEnable] : [];
    this.reading = [
      ...this.pins.select,
      ...others,
      ...(writeEnable ? [{ input: writeEnable.input, active: opposite(writeEnable.active) }] : []),
    ];
    this.readingBits = enableBits(this.reading);
    this.selectBits = enableBits(this.pins.select);
    this.addressBits = this.pins.address.reduce((bits, input) => bits | (1 << input), 0);
    const [first = 0] = this.pins.address;
    this.firstBit = this.pins.address.every((input, k) => input === first + k) ? first : -1;
    this.bits = this.pins.address.length;
    this.onPins = { value: 0, unknown: 0, bits: this.bits };
    this.supply = supplyHysteresis(this.bench, ALIVE);
  }

  address(): PinAddress {
    return this.onPins;
  }

  /** when it last moved [s] */
  addressAt(): number {
    return this.addressMovedAt;
  }

  shown(): Partly | undefined {
    return this.onBusWord;
  }

  begin(now: number): void {
    this.supply.begin();
    this.onPins = { ...gather(this.bench, this.pins.address), bits: this.bits };
    this.settledAt = now;
    this.present();
  }

  /** this address input has moved */
  addressMoved(input: number, now: number): void {
    const place = 1 << this.pins.address.indexOf(input);
    const level = this.bench.level(input);
    const value = level === 'H' ? this.onPins.value | place : this.onPins.value & ~place;
    const unknown = level === 'X' ? this.onPins.unknown | place : this.onPins.unknown & ~place;
    this.onPins = { value, unknown, bits: this.bits };
    this.addressMovedAt = now;
  }

  /** one of the enables has moved */
  enableMoved(input: number, now: number): void {
    if (this.pins.select.some((s) => s.input === input)) this.selectAt = now;
    else this.outputEnableAt = now;
  }

  /** the supply has crossed one of the chip's marks; only ALIVE counts here */
  supplyCrossed(mark: number, rising: boolean, now: number): void {
    if (mark === ALIVE && this.supply.crossed(rising, now)) this.disturb(now);
  }

  /** an alarm has gone off; true if it means that the supply is gone */
  alarm(name: string, now: number): boolean {
    if (name === 'outputs' && now >= this.settledAt) this.present();
    const gone = this.supply.alarm(name, now);
    if (gone) this.disturb(now);
    return gone;
  }

  alive(): boolean {
    return this.supply.on();
  }

  /** do the outputs drive the bus? */
  onBus(): 'yes' | 'no' | 'perhaps' {
    const all = this.alive() ? allActive(this.bench, this.reading) : 'no';
    return all === 'yes' && !this.sure() ? 'perhaps' : all;
  }

  /** Chip's `settled`: what is on the bus with these levels. */
  settled(levels: Partly, pulls: Uint8Array): 'working' | 'resting' | undefined {
    const on = activeIn(levels, this.readingBits);
    if (on === 'perhaps' || !this.alive() || !this.sure()) return undefined;
    if (on === 'no') pulls.fill(OFF, 0, 8);
    else {
      if (levels.unknown & this.addressBits) return undefined;
      this.asked.value = this.firstBit < 0 ? bitsAt(levels.value, this.pins.address) : (levels.value & this.addressBits) >>> this.firstBit;
      const { value, unknown } = this.byte(this.asked);
      if (unknown !== 0) return undefined;
      // by arithmetic, as no processor foresees the bits of a byte
      for (let bit = 0; bit < 8; bit++) pulls[bit] = PULL_LOW + (PULL_HIGH - PULL_LOW) * ((value >> bit) & 1);
    }
    return DRAWN[activeIn(levels, this.selectBits)];
  }

  /** Chip's `mayPull`: all that may be on the bus with these levels. */
  mayPull(levels: Partly, may: Uint8Array): 'working' | 'resting' {
    const all = this.alive() ? activeIn(levels, this.readingBits) : 'no';
    const on = all === 'yes' && !this.sure() ? 'perhaps' : all;
    const word = on === 'no' ? UNKNOWN_BYTE : this.byte(gatherIn(levels, this.pins.address));
    for (let bit = 0; bit < 8; bit++) may[bit] = pullsOnBus(on, word, bit);
    return DRAWN[activeIn(levels, this.selectBits)];
  }

  private present(): void {
    const on = this.onBus();
    const now = this.byte(this.onPins);
    this.onBusWord = on === 'no' ? undefined : on === 'yes' ? now : UNKNOWN_BYTE;
    for (let bit = 0; bit < 8; bit++) {
      const pull = (now.value >> bit) & 1 ? PULL_HIGH : PULL_LOW;
      if (on === 'no') this.bench.drive(bit, OFF);
      else if (on === 'yes' && !((now.unknown >> bit) & 1)) this.bench.drive(bit, pull);
      else this.bench.perhaps(bit, pullsOnBus(on, now, bit));
    }
    this.bench.draw(DRAWN[allActive(this.bench, this.pins.select)]);
    this.was = on;
  }

  /** outputs are unknown from now until the access times have run off; what they pull stays until then */
  disturb(now: number): void {
    const on = this.onBus();
    const stays = on === 'no' && this.was === 'no';
    this.was = on;
    if (stays) {
      this.bench.draw(DRAWN[allActive(this.bench, this.pins.select)]);
      return;
    }
    this.settledAt =
      on === 'no'
        ? now + this.timing.float
        : Math.max(
            now,
            this.addressMovedAt + this.timing.access,
            this.selectAt + this.timing.chipEnable,
            this.outputEnableAt + this.timing.outputEnable,
          );
    if (!this.alive()) {
      this.present();
      return;
    }
    for (let bit = 0; bit < 8; bit++) this.bench.doubt(bit);
    this.onBusWord = on === 'no' ? undefined : UNKNOWN_BYTE;
    this.bench.alarm(this.settledAt, 'outputs');
  }
}

/** What an output may pull, 1 << pull for each: perhaps on the bus it is off, or pulls what is stored. */
function pullsOnBus(on: 'yes' | 'no' | 'perhaps', { value, unknown }: Partly, bit: number): number {
  if (on === 'no') return 1 << OFF;
  const stored = (unknown >> bit) & 1 ? EITHER : 1 << ((value >> bit) & 1 ? PULL_HIGH : PULL_LOW);
  return on === 'yes' ? stored : stored | (1 << OFF);
}

const opposite = (level: Level): 'L' | 'H' => (level === 'L' ? 'H' : 'L');
