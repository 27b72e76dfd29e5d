/** Any legal bench: boards, parts and wires in whatever holes chance gives them, up to 200 parts; what finds no hole is left out. */
import fc from 'fast-check';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { planWith } from './plans.ts';

const ROWS = 63;
const COLOURS = ['red', 'amber', 'green', 'blue', 'white'] as const;
const OHMS = [0.1, 47, 330, 330, 330, 1000, 1000, 4700, 10_000, 10_000, 100_000, 1e6] as const;
const FARADS = [22e-12, 1e-9, 100e-9] as const;

/** A strip by number: rows of each board, lower and upper, then its four rails. */
const strip = fc.nat(100_000);
const thing = fc.record({
  kind: fc.constantFrom(
    ...([
      'resistor',
      'resistor',
      'led',
      'led',
      'capacitor',
      'diode',
      'dip-switch',
      'push-button',
      'wire',
      'wire',
      'rail',
      'rail',
      'eeprom-2kx8',
    ] as const),
  ),
  from: strip,
  to: strip,
  value: fc.nat(1000),
});

/** No bench has more parts. */
const MOST_PARTS = 200;

/** least, most: of things that are tried, wires among them; not all find holes. */
export function randomBench(least: number, most: number): fc.Arbitrary<Plan> {
  return fc
    .record({
      boards: fc.integer({ min: 1, max: 4 }),
      split: fc.boolean(),
      amps: fc.constantFrom(0.5, 5),
      things: fc.array(thing, { minLength: least, maxLength: most, size: 'max' }),
    })
    .map(({ boards, split, amps, things }) => build(boards, split, amps, things));
}

type Thing = Readonly<{ kind: string; from: number; to: number; value: number }>;

function build(boards: number, split: boolean, amps: number, things: readonly Thing[]): Plan {
  const taken = new Set<string>();
  const parts: PlanPart[] = [{ id: 'PS1', kind: 'bench-supply', spot: [0, -20], params: { amps } }];
  const wires: PlanWire[] = [];
  const switches: Plan['switches'] = { PS1: [true] };
  const name = (board: number, local: string) => `B${board + 1}:${local}`;
  const take = (holes: readonly string[]): boolean => {
    if (holes.some((h) => taken.has(h))) return false;
    for (const h of holes) taken.add(h);
    return true;
  };
  const free = (holes: readonly string[]): string | undefined => {
    const hole = holes.find((h) => !taken.has(h));
    if (hole) taken.add(hole);
    return hole;
  };
  const holesOf = (n: number) =>
    [...(Math.floor(n / ROWS) % 2 ? 'jihgf' : 'abcde')].map((c) => name(Math.floor(n / ROWS / 2) % boards, `${c}${1 + (n % ROWS)}`));
  const inRow = (n: number) => free(holesOf(n));
  /** by a row's first hole: which rail it has been tied to, as far as one looks; keeps most benches from being one short circuit */
  const sides = new Map<string, number>();
  const rowName = (n: number) => holesOf(n)[0] ?? '';
  const inRail = (n: number) => {
    const rail = ['+j', '-j', '+a', '-a'][n % 4] ?? '+j';
    return free(Array.from({ length: 50 }, (_, k) => name(Math.floor(n / 4) % boards, `${rail}${1 + ((k + n) % 50)}`)));
  };
  const agree = (from: number, side: number | undefined, careless: boolean): boolean => {
    const mine = sides.get(rowName(from));
    if (mine !== undefined && side !== undefined && mine !== side && !careless) return false;
    const both = mine ?? side;
    if (both !== undefined) sides.set(rowName(from), both);
    return true;
  };
  const wire = (from: string | undefined, to: string | undefined) => {
    if (from && to) wires.push({ id: `W${wires.length + 1}`, from, to, colour: 'green' });
  };
  const two = (id: string, kind: string, from: number, to: number, params: PlanPart['params']) => {
    const at = inRow(from);
    const end = to % 8 === 0 ? inRail(to >> 3) : inRow(to);
    if (at && end) parts.push({ id, kind, at, to: end, ...(params ? { params } : {}) });
  };
  const chip = (id: string, { from, value }: Thing) => {
    const board = from % boards;
    const first = 1 + (Math.floor(from / boards) % (ROWS - 11));
    const rows = Array.from({ length: 12 }, (_, k) => first + k);
    if (!take(rows.flatMap((r) => [name(board, `d${r}`), name(board, `h${r}`)]))) return;
    parts.push({ id, kind: 'eeprom-2kx8', at: name(board, `d${first}`) });
    // mostly it is supplied: pin 24 faces pin 1, pin 12 is the last of its side; sometimes one of the two has been forgotten
    const tie = (hole: string, rail: number) => {
      sides.set(name(board, hole), rail);
      wire(free([name(board, hole)]), inRail(4 * board + rail));
    };
    if (value % 10 !== 0) tie(`j${first}`, 0);
    if (value % 10 !== 1) tie(`a${first + 11}`, 1);
    // half of them are set to read: /WE, /OE and /CE
    if (value % 2)
      for (const [row, rail] of [
        [3, 0],
        [4, 1],
        [6, 1],
      ] as const)
        tie(`j${first + row}`, rail);
  };
  for (let b = 0; b < boards; b++) {
    wire('PS1.+', inRail(4 * b));
    wire('PS1.-', inRail(4 * b + 1));
    wire(inRail(4 * b), inRail(4 * b + 2));
    wire(inRail(4 * b + 1), inRail(4 * b + 3));
  }
  for (const [i, t] of things.entries()) {
    const id = `P${i}`;
    const { from, to, value } = t;
    if (parts.length === MOST_PARTS) break;
    const careless = value % 40 === 0;
    if (t.kind === 'resistor') two(id, t.kind, from, to, { ohms: OHMS[value % OHMS.length] ?? 330 });
    else if (t.kind === 'led') two(id, t.kind, from, to, { colour: COLOURS[value % COLOURS.length] ?? 'red' });
    else if (t.kind === 'capacitor') two(id, t.kind, from, to, { farads: FARADS[value % FARADS.length] ?? 1e-9 });
    else if (t.kind === 'diode') two(id, t.kind, from, to, undefined);
    else if (t.kind === 'wire') {
      if (agree(from, sides.get(rowName(to)), careless) && agree(to, sides.get(rowName(from)), careless)) wire(inRow(from), inRow(to));
    } else if (t.kind === 'rail') {
      if (agree(from, to % 2, careless)) wire(inRow(from), inRail(to));
    } else if (t.kind === 'eeprom-2kx8') chip(id, t);
    else {
      const poles = t.kind === 'dip-switch' ? 1 + (value % 8) : 3;
      const board = from % boards;
      const first = 1 + (Math.floor(from / boards) % (ROWS - poles));
      const rows = t.kind === 'dip-switch' ? Array.from({ length: poles }, (_, k) => first + k) : [first, first + 2];
      if (!take(rows.flatMap((r) => [name(board, `e${r}`), name(board, `f${r}`)]))) continue;
      parts.push({ id, kind: t.kind, at: name(board, `e${first}`), ...(t.kind === 'dip-switch' ? { params: { poles } } : {}) });
      if (t.kind === 'dip-switch') switches[id] = Array.from({ length: poles }, (_, k) => ((to >> k) & 1) === 1);
    }
  }
  return planWith({
    title: 'a bench put together by chance',
    boards: Array.from({ length: boards }, (_, b) => ({ id: `B${b + 1}`, kind: 'board-63', spot: [0, 21 * b], splitRails: split })),
    parts,
    wires,
    switches,
  });
}
