/** The sections that every greenhouse bench has, on its first board: rails, sensor switches, the memory, LEDs. Each puts its parts and wires down. */
import type { PlanWanted } from '../../shared/plan.ts';
import { type Draft, layWire, put, rail, resistorFrom } from './draft.ts';
import { GREENHOUSE_RULES, SENSORS, TABLE } from './greenhouse-rules.ts';

/** Row of the first sensor switch. */
const SWITCHES = 3;
/** Row of pins 1 and 24 of the memory. */
const MEMORY = 13;
/** Row of the first LED, and rows from one LED to the next. */
const LEDS = 33;
const LED_STEP = 4;

/** Row of each memory pin by name; those up to GND stand in the lower strips, the others in the upper. */
const ROW: Readonly<Record<string, number>> = Object.fromEntries(
  ['A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND'.split(' '), 'VCC A8 A9 /WE /OE A10 /CE D7 D6 D5 D4 D3'.split(' ')].flatMap((names) =>
    names.map((name, i) => [name, MEMORY + i] as const),
  ),
);

/** Row of a memory pin. */
export function rowOfPin(pin: string): number {
  const row = ROW[pin];
  if (row === undefined) throw new Error(`the memory has no pin ${pin}`);
  return row;
}

/** The id of the LED that shows a data bit. */
const ledOf = (bit: number): string => `LED${bit + 1}`;

const ledRow = (bit: number): number => LEDS + LED_STEP * bit;
/** The hole of an LED's upper strip that is nearest to the edge and that the memory's wire leaves free. */
export const freeAtLed = (bit: number): string => `${DATA_ENDS[bit]?.endsWith('j') ? 'i' : 'j'}${ledRow(bit)}`;

/** Columns at both ends of a wire, by pin: chosen so that wires to one chip lie beside each other and do not cross. */
const ADDRESS_ENDS = ['bb', 'ba', 'cc', 'bb', 'cc'] as const;
const DATA_ENDS = ['ag', 'bj', 'ai', 'ig', 'ih', 'jh', 'ji', 'jj'] as const;
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

/** One LED a data pin across the trench: wire from the pin to the upper strip, LED, 330 Ω from the lower strip to −. */
export function leds(plan: Draft): void {
  for (const [bit, rule] of GREENHOUSE_RULES.entries()) {
    const row = ledRow(bit);
    put(plan, { id: ledOf(bit), kind: 'led', at: `f${row}`, to: `e${row}`, params: { colour: rule.colour }, label: rule.led });
    put(plan, resistorFrom(`R${bit + 1}`, `b${row}`, rail('-a', row), 330));
    const [from, to] = DATA_ENDS[bit] ?? 'jj';
    layWire(plan, `${from}${rowOfPin(`D${bit}`)}`, `${to}${row}`, dataColour(bit));
  }
}

export const wanted = (): PlanWanted => ({
  inputs: SENSORS.map((name, i) => ({ name, pin: `U1.A${i}` })),
  outputs: GREENHOUSE_RULES.map((rule, i) => ({ name: rule.led, pin: `U1.D${i}` })),
  rules: GREENHOUSE_RULES.map((rule) => rule.says),
  rows: [...TABLE],
});
