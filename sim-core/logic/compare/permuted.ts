/**
 * All ways in which one image is another with pins exchanged and lines inverted. Address pins are tried in an order that invariants of the spectra
 * allow; the signs then are linear equations over two elements. Complete: what is not found does not exist, unless the search says that it gave up.
 */
import type { Disorder, Pins } from './disorder.ts';
import { type Signature, type Spectra, signatureOf, spectraOf } from './walsh.ts';

export interface PinReadings {
  /** the first ways found, at most MOST_WAYS */
  readonly ways: readonly (readonly Disorder[])[];
  /** all ways there are, or those found until the search was given up; those included that only exchange pins without a trace */
  readonly count: number;
  /** groups of wanted address pins that may be exchanged without a trace */
  readonly alikePins: readonly (readonly number[])[];
  /** false: the search was given up, and there may be more */
  readonly complete: boolean;
}

const MOST_WAYS = 64;
/** Places of the search tree looked at; a whole order of pins counts as many. */
const PATIENCE = 20_000;
const WHOLE_ORDER = 50;

export function waysToRead(wanted: ArrayLike<number>, seen: ArrayLike<number>, pins: Pins): PinReadings {
  const [w, s] = [spectraOf(wanted, pins), spectraOf(seen, pins)];
  const [sw, ss] = [signatureOf(w), signatureOf(s)];
  const nothing: PinReadings = { ways: [], count: 0, alikePins: [], complete: true };
  if (!sameSet(sw.data, ss.data) || !sameSet(sw.pins, ss.pins)) return nothing;

  const n = pins.address;
  const alikePins = exchangeable(wanted, n);
  /** the pin of its group before it: images of a group are taken in ascending order, and counted as all orders */
  const before = new Map(alikePins.flatMap((group) => group.slice(1).map((pin, k) => [pin, group[k] ?? pin] as const)));
  const orders = alikePins.reduce((product, group) => product * factorial(group.length), 1);
  /** rare signatures first, but the pins of a group in their order */
  const rarity = (pin: number) => sw.pins.reduce((c, other) => c + (other === sw.pins[pin] ? 1 : 0), 0);
  const sequence = Array.from({ length: n }, (_, i) => i).sort((a, b) => rarity(a) - rarity(b) || a - b);

  const ways: (readonly Disorder[])[] = [];
  const address = new Array<number>(n).fill(-1);
  const used = new Array<boolean>(n).fill(false);
  let count = 0;
  let visited = 0;

  const place = (depth: number): void => {
    if (visited++ > PATIENCE || ways.length >= MOST_WAYS) return;
    const pin = sequence[depth];
    if (pin === undefined) {
      visited += WHOLE_ORDER;
      count += orders * completed(w, s, sw, ss, address, ways);
      return;
    }
    const least = address[before.get(pin) ?? -1] ?? -1;
    // its own place first, so that the ways found first change least
    for (const to of [pin, ...[...used.keys()].filter((k) => k !== pin)]) {
      if (used[to] || to <= least || sw.pins[pin] !== ss.pins[to]) continue;
      if (sequence.slice(0, depth).some((p) => sw.pairs[p * n + pin] !== ss.pairs[(address[p] ?? 0) * n + to])) continue;
      used[to] = true;
      address[pin] = to;
      place(depth + 1);
      used[to] = false;
      address[pin] = -1;
    }
  };
  place(0);
  return { ways, count, alikePins, complete: visited <= PATIENCE && ways.length < MOST_WAYS };
}

/** For one order of the address pins: which data bit is seen where, and all signs. Answers how many ways there are. */
function completed(
  w: Spectra,
  s: Spectra,
  sw: Signature,
  ss: Signature,
  address: readonly number[],
  ways: (readonly Disorder[])[],
): number {
  const n = w.addressPins;
  const moved = new Uint32Array(2 ** n);
  for (let pin = 0; pin < n; pin++) for (let x = 0; x < 2 ** pin; x++) moved[2 ** pin + x] = (moved[x] ?? 0) | (1 << (address[pin] ?? 0));
  const m = w.columns.length;
  const fits = w.columns.map((a, j) => s.columns.flatMap((b, k) => (sw.data[j] === ss.data[k] && sameSize(a, b, moved) ? [k] : [])));
  // data bits that are equal or inverse to each other may change places: taken in ascending order, counted as all orders
  const alike = w.columns.map((a, j) => w.columns.findIndex((b, i) => i <= j && (i === j || isSameOrInverse(a, b))));
  const orders = [...new Set(alike)].reduce((product, first) => product * factorial(alike.filter((f) => f === first).length), 1);
  const data = new Array<number>(m).fill(-1);
  let count = 0;

  const assign = (j: number, equations: Equations): void => {
    if (j === m) {
      count += orders * 2 ** (n + m - equations.rank);
      if (ways.length < MOST_WAYS)
        ways.push([...changes('address', equations.signs() & (2 ** n - 1), address), ...changes('data', equations.signs() >>> n, data)]);
      return;
    }
    const least = Math.max(-1, ...alike.flatMap((f, i) => (i < j && f === alike[j] ? [data[i] ?? -1] : [])));
    const choices = (fits[j] ?? []).includes(j) ? [j, ...(fits[j] ?? []).filter((k) => k !== j)] : (fits[j] ?? []);
    for (const k of choices) {
      if (k <= least || data.includes(k)) continue;
      const [a, b] = [w.columns[j], s.columns[k]];
      if (!a || !b) continue;
      const more = equations.copy();
      if (!addSigns(more, a, b, moved, n + j)) continue;
      data[j] = k;
      assign(j + 1, more);
      data[j] = -1;
    }
  };
  assign(0, makeEquations(n, m));
  return count;
}

/** Nothing is said of what stays. */
const changes = (on: 'address' | 'data', mask: number, order: readonly number[]): Disorder[] => [
  ...(mask === 0 ? [] : [{ is: 'inverted', on, mask } as const]),
  ...(order.every((to, i) => to === i) ? [] : [{ is: 'permuted', on, order: [...order] } as const]),
];

/** Each coefficient that is not 0 says whether an even number of its lines is inverted. */
function addSigns(equations: Equations, a: Int32Array, b: Int32Array, moved: Uint32Array, column: number): boolean {
  for (let w = 0; w < a.length; w++) {
    const size = a[w] ?? 0;
    if (size !== 0 && !equations.add(w + 2 ** column, size !== b[moved[w] ?? 0])) return false;
  }
  return true;
}

interface Equations {
  readonly rank: number;
  /** The unknowns of `mask` add up to `odd`. False: that contradicts the others. */
  add(mask: number, odd: boolean): boolean;
  copy(): Equations;
  /** one solution, a mask of the lines that are inverted: address pins first, then data pins; what nothing fixes is 0 */
  signs(): number;
}

/** Linear equations over two elements; unknowns are n address pins and m data pins, 24 at most. */
function makeEquations(n: number, m: number, from?: { masks: Int32Array; odds: Uint8Array; rank: number }): Equations {
  /** by leading unknown */
  const masks = from?.masks.slice() ?? new Int32Array(n + m);
  const odds = from?.odds.slice() ?? new Uint8Array(n + m);
  let rank = from?.rank ?? 0;
  return {
    get rank() {
      return rank;
    },
    add(mask, odd) {
      let rest = mask;
      let right = odd ? 1 : 0;
      while (rest !== 0) {
        const wire = 31 - Math.clz32(rest);
        if (masks[wire] === 0) {
          masks[wire] = rest;
          odds[wire] = right;
          rank++;
          return true;
        }
        rest ^= masks[wire] ?? 0;
        right ^= odds[wire] ?? 0;
      }
      return right === 0;
    },
    copy: () => makeEquations(n, m, { masks, odds, rank }),
    signs() {
      let solved = 0;
      // from the lowest unknown up, each equation gives its leading one
      for (let wire = 0; wire < n + m; wire++) {
        if (masks[wire] === 0) continue;
        let right = odds[wire] ?? 0;
        for (let rest = (masks[wire] ?? 0) & solved; rest !== 0; rest &= rest - 1) right ^= 1;
        if (right) solved |= 1 << wire;
      }
      return solved;
    },
  };
}

function exchangeable(bytes: ArrayLike<number>, n: number): number[][] {
  const groups: number[][] = [];
  for (let pin = 0; pin < n; pin++) {
    const group = groups.find(([first = 0]) => isExchangeable(bytes, first, pin));
    if (group) group.push(pin);
    else groups.push([pin]);
  }
  return groups.filter((g) => g.length > 1);
}

function isExchangeable(bytes: ArrayLike<number>, i: number, k: number): boolean {
  for (let a = 0; a < bytes.length; a++) if ((a >> i) & 1 && !((a >> k) & 1) && bytes[a] !== bytes[a ^ ((1 << i) | (1 << k))]) return false;
  return true;
}

function sameSize(a: Int32Array, b: Int32Array, moved: Uint32Array): boolean {
  for (let w = 0; w < a.length; w++) if (Math.abs(a[w] ?? 0) !== Math.abs(b[moved[w] ?? 0] ?? 0)) return false;
  return true;
}

function isSameOrInverse(a: Int32Array, b: Int32Array): boolean {
  const sign = a.every((v, i) => v === b[i]) ? 1 : -1;
  return sign === 1 || a.every((v, i) => v === -(b[i] ?? 0));
}

const sameSet = (a: Uint32Array, b: Uint32Array): boolean => {
  const [x, y] = [a.slice().sort(), b.slice().sort()];
  return x.every((v, i) => v === y[i]);
};

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
