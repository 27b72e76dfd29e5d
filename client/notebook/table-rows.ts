/** The truth table as it stands: for each row what is wanted, what the memory holds, and which switches lead there. */
import type { Plan } from '../../shared/plan.ts';
import type { ChipReading, Glow, Readings } from '../core.ts';
import { netOfNamedPin, type Standing } from '../standing.ts';
import type { Swept } from '../worker/protocol.ts';

interface Setting {
  readonly part: string;
  readonly pole: number;
  readonly closed: boolean;
}

/** The byte at an address of a plan's memory image; what is not named there is erased, all ones. */
export function byteAt(image: Plan['memories'][string] | undefined, address: number): number {
  for (const [start, bytes] of Object.entries(image ?? {})) {
    const at = (address - Number.parseInt(start, 16)) * 2;
    if (at >= 0 && at < bytes.length) return Number.parseInt(bytes.slice(at, at + 2), 16);
  }
  return 0xff;
}

/** 'U1.A3' → 3 if the pin is one of a numbered set that begins with this letter. */
const numberOf = (pin: string, letter: string): number | undefined => {
  const m = /^\w+\.([A-Z]+)(\d+)$/.exec(pin);
  return m && m[1] === letter ? Number(m[2]) : undefined;
};

/** What the memory holds for a row, as the bits of the wanted outputs; undefined where the plan's lines are not a memory's pins. */
export function storedFor(standing: Standing, memories: Plan['memories'], chip: ChipReading | undefined, row: number): number | undefined {
  const { wanted } = standing.plan;
  const id = wanted?.inputs[0]?.pin.split('.')[0];
  if (!wanted || !id || !chip) return undefined;
  // address lines that no input sets stay where they are
  let address = chip.state.address?.value ?? 0;
  for (const [i, line] of wanted.inputs.entries()) {
    const bit = numberOf(line.pin, 'A');
    if (bit === undefined || !line.pin.startsWith(`${id}.`)) return undefined;
    address = (address & ~(1 << bit)) | (((row >> i) & 1) << bit);
  }
  const byte = byteAt(memories[id], address);
  let value = 0;
  for (const [i, line] of wanted.outputs.entries()) {
    const bit = numberOf(line.pin, 'D');
    if (bit === undefined || !line.pin.startsWith(`${id}.`)) return undefined;
    value |= ((byte >> bit) & 1) << i;
  }
  return value;
}

/** Switches for a row, by what the sweep found out about them. */
export const settingsFor = (swept: Swept, row: number): readonly Setting[] =>
  swept.inputs.map(({ part, pole, highWhenClosed }, i) => ({ part, pole, closed: (((row >> i) & 1) === 1) === highWhenClosed }));

/** The row that the input pins stand at, if every one of them has a level. */
export function rowNow(standing: Standing, readings: Readings): number | undefined {
  let row = 0;
  for (const [i, line] of (standing.plan.wanted?.inputs ?? []).entries()) {
    const [part, name] = line.pin.split('.');
    const chip = readings.chips.find((c) => c.part === part);
    const at = standing.specimen.get(part ?? '')?.legs.findIndex((l) => l.pin.name === name) ?? -1;
    const level = chip?.pins[at]?.level;
    if (chip?.state.doing === 'no supply' || (level !== 'L' && level !== 'H')) return undefined;
    if (level === 'H') row |= 1 << i;
  }
  return row;
}

/** What the named lamps show in a row: lit or dim is 1, dark is 0, undecided is unknown. An output without a lamp of its name is unknown. */
export function shownIn(
  glows: readonly Glow[],
  lamps: readonly string[],
  standing: Standing,
): { readonly value: number; readonly unknown: number } {
  let [value, unknown] = [0, 0];
  for (const [i, line] of (standing.plan.wanted?.outputs ?? []).entries()) {
    const lamp = standing.lamps.find((l) => l.name === line.name);
    // a damaged lamp is on the bench, but not among those that can shine
    const glow = lamp && (glows[lamps.indexOf(lamp.lamp)] ?? 'dark');
    if (glow === undefined || glow === 'undecided') unknown |= 1 << i;
    else if (glow !== 'dark') value |= 1 << i;
  }
  return { value, unknown };
}

/** Does the table name lines of this bench at all? */
export const hasTable = (standing: Standing): boolean =>
  (standing.plan.wanted?.inputs ?? []).some((line) => netOfNamedPin(line.pin, standing.specimens, standing.netOfLeg) !== undefined);
