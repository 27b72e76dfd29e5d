/**
 * What a memory replaces: the gates of its outputs' sums of products, and the packages they come in.
 * The rule: equal products are built once; one inverter for each input that is needed inverted; a gate of many inputs is a tree. Packages of 14 pins hold
 * four gates of two inputs, two of four inputs, or six inverters (common practice, no source); every kind fills packages of its own.
 */
import { type Cube, literalsOf, type SumOfProducts } from './cube.ts';

export interface Gates {
  readonly inverters: number;
  readonly and2: number;
  readonly and4: number;
  readonly or2: number;
  readonly or4: number;
}

/** How many gates of how many inputs a set of sums takes, and in how many packages. */
export interface GateCount {
  readonly gates: Gates;
  readonly gateCount: number;
  readonly packages: number;
}

const IN_PACKAGE: Gates = { inverters: 6, and2: 4, and4: 2, or2: 4, or4: 2 };

/** widest: inputs that the largest gate at hand has. */
export function gatesFor(sums: readonly SumOfProducts[], widest: 2 | 4): GateCount {
  const products = new Map<string, Cube>();
  for (const { products: own } of sums) for (const p of own) products.set(`${p.care}/${p.value}`, p);
  let inverted = 0;
  const gates = { inverters: 0, and2: 0, and4: 0, or2: 0, or4: 0 };
  for (const p of products.values()) {
    inverted |= p.care & ~p.value;
    const [two, four] = tree(literalsOf(p), widest);
    gates.and2 += two;
    gates.and4 += four;
  }
  for (const { products: own } of sums) {
    const [two, four] = tree(own.length, widest);
    gates.or2 += two;
    gates.or4 += four;
  }
  gates.inverters = literalsOf({ care: inverted, value: 0 });
  const kinds = Object.keys(IN_PACKAGE) as (keyof Gates)[];
  return {
    gates,
    gateCount: kinds.reduce((n, k) => n + gates[k], 0),
    packages: kinds.reduce((n, k) => n + Math.ceil(gates[k] / IN_PACKAGE[k]), 0),
  };
}

/** Gates of two and of four inputs that join so many lines into one; three lines take a gate of four with one input tied. */
function tree(lines: number, widest: 2 | 4): readonly [two: number, four: number] {
  if (widest === 2) return [Math.max(0, lines - 1), 0];
  let four = 0;
  let left = lines;
  for (; left > 2; left = Math.max(1, left - 3)) four++;
  return [left === 2 ? 1 : 0, four];
}
