/** One EEPROM 32K × 8 with a switch and a pull-down on every address pin and an LED on every data pin. */
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { hexByte } from '../../sim-core/units/hex.ts';

/** Where the memory's first pin is; 14 rows a side. */
const FIRST = 40;
/** Pin numbers, least significant first: SOURCES.md S1, S8. */
const ADDRESS = [10, 9, 8, 7, 6, 5, 4, 3, 25, 24, 21, 23, 2, 26, 1];
const DATA = [11, 12, 13, 15, 16, 17, 18, 19];

/** The n-th free hole, from the outside, of a pin's row. */
const holeOf = (pin: number, n: number): string => (pin <= 14 ? `${'abc'[n]}${FIRST + pin - 1}` : `${'jih'[n]}${FIRST + 28 - pin}`);

export function wideMemory(contents: (address: number) => number): Plan {
  const parts: PlanPart[] = [
    { id: 'PS1', kind: 'bench-supply', spot: [-12, 0] },
    { id: 'U1', kind: 'eeprom-32kx8', at: `d${FIRST}` },
    { id: 'C1', kind: 'capacitor', at: holeOf(28, 1), to: '-j50', params: { farads: 100e-9 } },
    { id: 'S1', kind: 'dip-switch', at: 'e1', params: { poles: 12 } },
    { id: 'S2', kind: 'dip-switch', at: 'e13', params: { poles: 3 } },
  ];
  const wires: PlanWire[] = [];
  const join = (from: string, to: string) => wires.push({ id: `W${wires.length + 1}`, from, to, colour: 'green' });
  join('PS1.+', '+j1');
  join('PS1.-', '-j1');
  join('-j2', '-a1');
  // supply; /CE and /OE low, /WE high
  join('+j40', holeOf(28, 0));
  join('-a40', holeOf(14, 0));
  join('-j40', holeOf(20, 0));
  join('-j41', holeOf(22, 0));
  join('+j41', holeOf(27, 0));
  for (const [bit, pin] of ADDRESS.entries()) {
    join(`+j${bit + 2}`, `j${bit + 1}`);
    parts.push({ id: `RP${bit}`, kind: 'resistor', at: `b${bit + 1}`, to: `-a${bit + 21}`, params: { ohms: 10_000 } });
    join(`a${bit + 1}`, holeOf(pin, 0));
  }
  for (const [bit, pin] of DATA.entries()) {
    const row = 20 + 2 * bit;
    join(holeOf(pin, 0), `a${row}`);
    parts.push({ id: `LED${bit}`, kind: 'led', at: `c${row}`, to: `c${row + 1}`, params: { colour: 'red' } });
    parts.push({ id: `R${bit}`, kind: 'resistor', at: `b${row + 1}`, to: `-a${12 + bit}`, params: { ohms: 330 } });
  }
  const bytes = Array.from({ length: 32768 }, (_, a) => hexByte(contents(a) & 0xff));
  const image = Object.fromEntries(
    Array.from({ length: 32 }, (_, k) => [(1024 * k).toString(16).toUpperCase(), bytes.slice(1024 * k, 1024 * (k + 1)).join('')]),
  );
  return {
    format: 'lampwright-plan',
    version: 2,
    title: 'one wide memory',
    boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }],
    parts,
    wires,
    memories: { U1: image },
    meters: [],
    notes: [],
    switches: { PS1: [true] },
  };
}
