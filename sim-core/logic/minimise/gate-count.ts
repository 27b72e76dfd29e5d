/**
 * What a memory replaces: the gates of its outputs, and the packages they come in.
 * The rule: equal products and equal exclusive ORs are built once; one inverter for each letter that is needed inverted; a gate of many inputs is a tree. Packages of
 * 14 pins hold four gates of two inputs, two of four inputs, or six inverters (common practice, no source); every kind fills packages of its own.
 */
import { type Cube, literalsOf } from './cube.ts';
import type { OutputForm } from './form.ts';

export interface Gates {
  readonly inverters: number;
  readonly and2: number;
  readonly and4: number;
  readonly or2: number;
  readonly or4: number;
  readonly xor2: number;
}

/** How many gates of how many inputs a set of outputs takes, and in how many packages. */
export interface GateCount {
  /** different products, single letters among them */
  readonly products: number;
  readonly gates: Gates;
  readonly gateCount: number;
  readonly packages: number;
}

const IN_PACKAGE: Gates = { inverters: 6, and2: 4, and4: 2, or2: 4, or4: 2, xor2: 4 };

/** widest: inputs that the largest gate at hand has; exclusive ORs have two. */
export function gatesFor(forms: readonly OutputForm[], widest: 2 | 4): GateCount {
  const products = new Map<string, number>();
  const inverted = new Set<number>();
  const xors = new Set<number>();
  const gates = { inverters: 0, and2: 0, and4: 0, or2: 0, or4: 0, xor2: 0 };
  for (const { letters, beside, products: own } of forms) {
    for (const p of own) {
      products.set(nameOf(p, letters), literalsOf(p));
      for (const [k, mask] of letters.entries()) {
        if (!((p.care >> k) & 1)) continue;
        chain(mask, xors);
        if (!((p.value >> k) & 1)) inverted.add(mask);
      }
    }
    chain(beside, xors);
    const isOne = own.some((p) => p.care === 0);
    if (beside !== 0 && isOne) inverted.add(beside);
    if (beside !== 0 && !isOne && own.length > 0) gates.xor2 += 1;
    const [two, four] = tree(own.length, widest);
    gates.or2 += two;
    gates.or4 += four;
  }
  for (const letters of products.values()) {
    const [two, four] = tree(letters, widest);
    gates.and2 += two;
    gates.and4 += four;
  }
  gates.inverters = inverted.size;
  gates.xor2 += xors.size;
  const kinds = Object.keys(IN_PACKAGE) as (keyof Gates)[];
  return {
    products: [...products.values()].filter((letters) => letters > 0).length,
    gates,
    gateCount: kinds.reduce((n, k) => n + gates[k], 0),
    packages: kinds.reduce((n, k) => n + Math.ceil(gates[k] / IN_PACKAGE[k]), 0),
  };
}

/** The same for the same product of the same letters, whichever form it is in. */
const nameOf = ({ care, value }: Cube, letters: readonly number[]): string =>
  letters
    .flatMap((mask, k) => ((care >> k) & 1 ? [`${(value >> k) & 1 ? '' : '!'}${mask}`] : []))
    .sort()
    .join();

/** The gates of an exclusive OR: each adds the next input, so that what begins alike is built once. */
function chain(mask: number, built: Set<number>): void {
  let sofar = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) {
    const alone = sofar === 0;
    sofar |= rest & -rest;
    if (!alone) built.add(sofar);
  }
}

/** Gates of two and of four inputs that join so many lines into one; three lines take a gate of four with one input tied. */
function tree(lines: number, widest: 2 | 4): readonly [two: number, four: number] {
  if (widest === 2) return [Math.max(0, lines - 1), 0];
  let four = 0;
  let left = lines;
  for (; left > 2; left = Math.max(1, left - 3)) four++;
  return [left === 2 ? 1 : 0, four];
}
