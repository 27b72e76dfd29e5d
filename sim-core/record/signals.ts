/** What of a bench can be recorded: a hole, a pin, a bus, the current of an LED or a supply, what a memory does; found again after every edit. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { GROUND } from '../devices/network.ts';
import type { ChipState } from '../parts/part.ts';
import type { BuiltCircuit } from '../run/built-circuit.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { type PinPlace, pinLevel, pinPlaces } from '../run/readout/pin-level.ts';

/** How the numbers of a signal are read. volts, amps: as they are. level: places in LEVELS. bus: see `busCode`. state: places in DOING. */
export type SignalKind = 'volts' | 'level' | 'amps' | 'bus' | 'state';

/** One line of a record. */
export interface Signal {
  /** the part it belongs to; '' for a hole */
  readonly of: string;
  readonly name: string;
  readonly kind: SignalKind;
  /** of a bus */
  readonly bits?: number;
  /** what is asked at each moment on a bench that was built, with its node voltages */
  on(built: BuiltCircuit): (now: number, x: Float64Array) => number;
}

/** L, H, X: undefined or between the thresholds, Z: high-impedance. */
export const LEVELS = ['L', 'H', 'X', 'Z'] as const;
/** What a memory may be doing, in the order of its numbers in a record. */
export const DOING: readonly ChipState['doing'][] = [
  'no supply',
  'working',
  'waiting',
  'reading',
  'high-impedance',
  'storing',
  'ready to write',
  'programming',
  'erasing',
  'operated',
  'released',
];
const [LOW, HIGH, UNDEFINED] = [0, 1, 2];
/** What a hole, which no data sheet speaks of, reads as low and as high [V]: inputs that are made for 5 V bipolar logic; common practice, no source. */
const HOLE_LEVELS = { low: 0.8, high: 2 };
const MOST_BITS = 16;
/** Bits of a bus that are undefined or high-impedance stand above its value. */
export const busCode = (value: number, unknown: number): number => unknown * 2 ** MOST_BITS + value;
/** The bits of a bus's number, the highest first; x for one that is undefined. */
export const busBits = (code: number, bits: number): string =>
  Array.from({ length: bits }, (_, i) => {
    const bit = bits - 1 - i;
    return (Math.floor(code / 2 ** (MOST_BITS + bit)) & 1) === 1 ? 'x' : String((code >> bit) & 1);
  }).join('');

const gone = (): number => Number.NaN;
const at = (node: number, x: Float64Array): number => (node === GROUND ? 0 : (x[node] as number));

/** The signals of one word: a hole `a12`, a pin `U1.D3` or `U1.9`, a bus `U1.D`, an LED, a supply, a memory. Fails with `record/nothing-of-this-name`. */
export function signalsOf(word: string, circuit: Circuit): Outcome<readonly Signal[]> {
  const found = ofPart(word, circuit) ?? ofPin(word, circuit) ?? ofHole(word, circuit);
  return found
    ? done(found)
    : failed(
        'record/nothing-of-this-name',
        word,
        `There is nothing called ${word} to record. Name an LED, a supply, a memory, a pin such as U1.D3, a bus such as U1.D, or a hole such as a12.`,
      );
}

function ofPart(word: string, { leds, supplies, chipById }: Circuit): Signal[] | undefined {
  if (leds.some((l) => l.id === word)) {
    const on = ({ circuit }: BuiltCircuit) => {
      const led = circuit.leds.find((l) => l.id === word);
      return led ? (_: number, x: Float64Array) => circuit.network.flow(led.device, x).i : gone;
    };
    return [{ of: word, name: 'current', kind: 'amps', on }];
  }
  if (supplies.some((s) => s.placed.part.id === word)) {
    const on = ({ circuit }: BuiltCircuit) => {
      const supply = circuit.supplyById.get(word);
      return supply ? (_: number, x: Float64Array) => -circuit.network.flow(supply.device, x).i : gone;
    };
    return [{ of: word, name: 'current', kind: 'amps', on }];
  }
  if (!chipById.get(word)?.spec.word) return undefined;
  const on = ({ runtime }: BuiltCircuit) => {
    const slot = runtime.byPart.get(word);
    return slot ? (now: number) => DOING.indexOf(slot.chip.state(now).doing) : gone;
  };
  return [{ of: word, name: 'state', kind: 'state', on }];
}

function ofPin(word: string, { chipById }: Circuit): Signal[] | undefined {
  const [, part = '', pin = ''] = /^([^.]+)\.(.+)$/.exec(word) ?? [];
  const site = chipById.get(part);
  if (!site) return undefined;
  const place = pinPlaces(site).find((p) => p.name === pin || p.pin === pin);
  if (place) return pinSignals(part, place.name);
  const bus = busOf(site, pin);
  if (bus.length < 2 || bus.length > MOST_BITS) return undefined;
  const on = (built: BuiltCircuit) => {
    const levels = bus.map((name) => levelOn(built, part, name));
    return (now: number) => {
      let [value, unknown] = [0, 0];
      for (let bit = 0; bit < levels.length; bit++) {
        const level = levels[bit]?.(now);
        if (level === HIGH) value += 2 ** bit;
        else if (level !== LOW) unknown += 2 ** bit;
      }
      return busCode(value, unknown);
    };
  };
  return [{ of: part, name: pin, kind: 'bus', bits: bus.length, on }, ...bus.flatMap((name) => pinSignals(part, name))];
}

/** Names of the pins that are this letter and a number, from 0 on. */
function busOf(site: ChipSite, letters: string): string[] {
  const names = new Set(pinPlaces(site).map((p) => p.name));
  const bus: string[] = [];
  while (names.has(`${letters}${bus.length}`)) bus.push(`${letters}${bus.length}`);
  return bus;
}

function pinSignals(part: string, name: string): Signal[] {
  const volts = ({ circuit }: BuiltCircuit) => {
    const site = circuit.chipById.get(part);
    const pin = site && [...site.inputs, ...site.outputs, site.supply, site.ground].find((p) => p.name === name);
    return pin ? (_: number, x: Float64Array) => at(pin.node, x) - at(site.ground.node, x) : gone;
  };
  return [
    { of: part, name, kind: 'level', on: (built) => levelOn(built, part, name) },
    { of: part, name, kind: 'volts', on: volts },
  ];
}

function levelOn({ runtime }: BuiltCircuit, part: string, name: string): (now: number) => number {
  const slot = runtime.byPart.get(part);
  const place = slot && pinPlaces(slot.site).find((p) => p.name === name);
  if (!slot || !place) return () => UNDEFINED;
  return (now) => LEVELS.indexOf(pinLevel(slot, place as PinPlace, slot.chip.state(now).doing) ?? 'X');
}

function ofHole(word: string, { interconnect }: Circuit): Signal[] | undefined {
  if (!interconnect.atPoint(word)) return undefined;
  const node = ({ circuit }: BuiltCircuit) => circuit.interconnect.atPoint(word)?.node;
  const volts = (built: BuiltCircuit) => {
    const here = node(built);
    return here === undefined ? gone : (_: number, x: Float64Array) => at(here, x);
  };
  const level = (built: BuiltCircuit) => {
    const read = volts(built);
    return (now: number, x: Float64Array) => {
      const v = read(now, x);
      return v <= HOLE_LEVELS.low ? LOW : v >= HOLE_LEVELS.high ? HIGH : UNDEFINED;
    };
  };
  return [
    { of: '', name: word, kind: 'level', on: level },
    { of: '', name: word, kind: 'volts', on: volts },
  ];
}
