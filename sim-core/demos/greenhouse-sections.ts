/** The sections that every greenhouse bench has, on its first board: rails, sensor switches, the memory, the buffer, LEDs. Each puts its parts and wires down. */
import type { PlanWanted } from '../../shared/plan.ts';
import { type Draft, layWire, put, rail, resistorFrom } from './draft.ts';
import { GREENHOUSE_RULES, SENSORS, TABLE } from './greenhouse-rules.ts';

/** Row of the first sensor switch. */
const SWITCHES = 3;
/** Row of pins 1 and 24 of the memory. */
const MEMORY = 13;
/** Row of pins 1 and 20 of the buffer. */
const BUFFER = 26;
/** Row of the first LED, and rows from one LED to the next. */
const LEDS = 40;
const LED_STEP = 3;
/** So much for the colours whose LEDs drop less, and for those that drop more [Ω]: 4 to 7 mA. */
const LIMIT = 470;
const LIMIT_BLUE = 330;

/** Row of each pin by name; those of the first list stand in the lower strips, the others in the upper. */
const rowsOf = (first: number, ...sides: readonly string[]): Readonly<Record<string, number>> =>
  Object.fromEntries(sides.flatMap((names) => names.split(' ').map((name, i) => [name, first + i] as const)));
const MEMORY_ROWS = rowsOf(MEMORY, 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND', 'VCC A8 A9 /WE /OE A10 /CE D7 D6 D5 D4 D3');
const BUFFER_ROWS = rowsOf(BUFFER, '/1G 1A1 2Y4 1A2 2Y3 1A3 2Y2 1A4 2Y1 GND', 'VCC /2G 1Y1 2A4 1Y2 2A3 1Y3 2A2 1Y4 2A1');

const rowIn = (rows: Readonly<Record<string, number>>, pin: string): number => {
  const row = rows[pin];
  if (row === undefined) throw new Error(`no pin ${pin}`);
  return row;
};
/** Row of a memory pin. */
export const rowOfPin = (pin: string): number => rowIn(MEMORY_ROWS, pin);
/** Row of a buffer pin. */
const rowOfBuffer = (pin: string): number => rowIn(BUFFER_ROWS, pin);

/** The id of the LED that shows a data bit. */
const ledOf = (bit: number): string => `LED${bit + 1}`;
/** Row of a data bit's input of the buffer, and of its output. */
const channelRow = (bit: number, side: 'A' | 'Y'): number => rowOfBuffer(`${bit < 4 ? 1 : 2}${side}${(bit % 4) + 1}`);

/** A hole of a data bit's strip that the wire between memory and buffer leaves free: at the buffer, for D3 at the memory, since its input is below. */
export const freeAtData = (bit: number): string => {
  if (bit === 3) return `j${rowOfPin('D3')}`;
  return `${bit < 4 ? 'a' : 'j'}${channelRow(bit, 'A')}`;
};

/** Columns at both ends of a wire, by pin: chosen so that wires to one chip lie beside each other and do not cross. */
const ADDRESS_ENDS = ['bb', 'ba', 'cc', 'bb', 'cc'] as const;
const DATA_ENDS = ['bb', 'cc', 'cd', 'ic', 'ii', 'ih', 'ig', 'ii'] as const;
const LED_ENDS = ['hg', 'hg', 'gg', 'gg', 'dg', 'dg', 'cg', 'bg'] as const;
const ADDRESS_COLOURS = ['violet', 'turquoise', 'green', 'yellow', 'orange'] as const;
const DATA_COLOURS = ['orange', 'yellow', 'green', 'turquoise', 'violet', 'pink', 'brown', 'white'] as const;
export const dataColour = (bit: number): string => DATA_COLOURS[bit] ?? 'white';

/** The supply above the board's left end, and the rails of both sides joined at the right end. */
export function supplyRails(plan: Draft, spot: [number, number]): void {
  put(plan, { id: 'PS1', kind: 'bench-supply', spot });
  layWire(plan, 'PS1.+', rail('+j', 11), 'red');
  layWire(plan, 'PS1.-', rail('-j', 9), 'black');
  layWire(plan, rail('+j', 10), rail('+a', 10), 'red');
  layWire(plan, rail('-j', 11), rail('-a', 11), 'black');
}

/** One pole a sensor: closed, it takes its address pin to +; open, 10 kΩ holds the pin low. */
export function sensors(plan: Draft): void {
  put(plan, {
    id: 'S1',
    kind: 'dip-switch',
    at: `e${SWITCHES}`,
    params: { poles: SENSORS.length },
    label: 'sensors',
    poleNames: [...SENSORS],
  });
  for (const [i] of SENSORS.entries()) {
    const row = SWITCHES + i;
    put(plan, resistorFrom(`R${11 + i}`, `a${row}`, rail('-a', row), 10_000));
    layWire(plan, rail('+j', row), `j${row}`, 'red');
    const [from, to] = ADDRESS_ENDS[i] ?? 'cb';
    layWire(plan, `${from}${row}`, `${to}${rowOfPin(`A${i}`)}`, ADDRESS_COLOURS[i] ?? 'grey');
  }
}

/** The memory with its supply, its decoupling, /CE low for good, and the address pins that no sensor uses held low. */
export function memory(plan: Draft): void {
  put(plan, { id: 'U1', kind: 'eeprom-2kx8', at: `d${MEMORY}` });
  put(plan, { id: 'C1', kind: 'capacitor', at: `j${rowOfPin('VCC')}`, to: rail('-j', rowOfPin('VCC')), params: { farads: 100e-9 } });
  layWire(plan, rail('+j', 12), `i${rowOfPin('VCC')}`, 'red');
  layWire(plan, `a${rowOfPin('GND')}`, rail('-a', rowOfPin('GND')), 'black');
  // beside row 14 the rails have no hole, so what starts there and next to it leans one row to the right
  layWire(plan, `a${rowOfPin('A7')}`, rail('-a', 13), 'grey');
  layWire(plan, `a${rowOfPin('A6')}`, rail('-a', 15), 'black');
  layWire(plan, `a${rowOfPin('A5')}`, rail('-a', 16), 'grey');
  layWire(plan, `j${rowOfPin('A8')}`, rail('-j', 15), 'grey');
  layWire(plan, `j${rowOfPin('A9')}`, rail('-j', 16), 'black');
  layWire(plan, `j${rowOfPin('A10')}`, rail('-j', 18), 'grey');
  layWire(plan, `j${rowOfPin('/CE')}`, rail('-j', 19), 'black');
}

/** The buffer between memory and LEDs: the memory guarantees a high level at 0.4 mA and no more, the buffer at 6 mA an output. Both its enables are low for good. */
export function buffer(plan: Draft): void {
  put(plan, { id: 'U2', kind: 'octal-buffer', at: `e${BUFFER}`, params: { family: 'HCT' } });
  // beside the buffer's first row the rails have no hole, and its ground stays on the left half of a board whose rails are cut
  put(plan, { id: 'C2', kind: 'capacitor', at: `j${BUFFER}`, to: rail('-j', BUFFER + 1), params: { farads: 100e-9 } });
  layWire(plan, rail('+j', BUFFER - 1), `i${BUFFER}`, 'red');
  layWire(plan, `a${rowOfBuffer('GND')}`, rail('-a', 30), 'black');
  layWire(plan, `j${rowOfBuffer('/2G')}`, rail('-j', BUFFER + 2), 'violet');
  layWire(plan, `g${rowOfBuffer('/2G')}`, `d${rowOfBuffer('/1G')}`, 'violet');
  for (const [bit] of GREENHOUSE_RULES.entries()) {
    const [from, to] = DATA_ENDS[bit] ?? 'ag';
    layWire(plan, `${from}${rowOfPin(`D${bit}`)}`, `${to}${channelRow(bit, 'A')}`, dataColour(bit));
  }
}

/** One LED a data bit across the trench: wire from the buffer's output to the upper strip, LED, resistor from the lower strip to −. */
export function leds(plan: Draft): void {
  for (const [bit, { led, colour }] of GREENHOUSE_RULES.entries()) {
    const row = LEDS + LED_STEP * bit;
    put(plan, { id: ledOf(bit), kind: 'led', at: `f${row}`, to: `e${row}`, params: { colour }, label: led });
    const ohms = colour === 'blue' || colour === 'white' ? LIMIT_BLUE : LIMIT;
    put(plan, resistorFrom(`R${bit + 1}`, `a${row}`, rail('-a', row), ohms));
    const [from, to] = LED_ENDS[bit] ?? 'gg';
    layWire(plan, `${from}${channelRow(bit, 'Y')}`, `${to}${row}`, dataColour(bit));
  }
}

export const wanted = (): PlanWanted => ({
  inputs: SENSORS.map((name, i) => ({ name, pin: `U1.A${i}` })),
  outputs: GREENHOUSE_RULES.map((rule, i) => ({ name: rule.led, pin: `U1.D${i}` })),
  rules: GREENHOUSE_RULES.map((rule) => rule.says),
  rows: [...TABLE],
});
