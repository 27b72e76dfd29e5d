/** Which tie points are one electrical net. Knows strips, legs and wires; nothing of voltage. */
import type { Layout, Leg, WireEnd } from './layout.ts';

/** Strips that wires join into one piece of metal, with the legs and wire ends on it. */
export interface Net {
  /** position in `Nets.all`; ordered by the first strip that a leg or a wire's end touches in the plan */
  readonly index: number;
  readonly strips: readonly string[];
  readonly legs: readonly Leg[];
  readonly ends: readonly WireEnd[];
}

/** All nets of a bench, in order, and the net of each strip. */
export interface Nets {
  readonly all: readonly Net[];
  /** strip name → net; strips with nothing in them belong to no net */
  readonly ofStrip: ReadonlyMap<string, Net>;
}

/** Union-find over the strips that are in use. Wires join; legs only belong. */
export function findNets({ legs, ends }: Layout): Nets {
  const numbers = new Map<string, number>();
  const names: string[] = [];
  const numberOf = ({ strip }: { readonly strip: string }): number => {
    let number = numbers.get(strip);
    if (number === undefined) {
      number = names.push(strip) - 1;
      numbers.set(strip, number);
    }
    return number;
  };
  const legStrips = legs.map(numberOf);
  const endStrips = ends.map(numberOf);
  const parent = Int32Array.from(names, (_, strip) => strip);
  const rootOf = (strip: number): number => {
    let root = strip;
    while (parent[root] !== root) root = parent[root] as number;
    parent[strip] = root;
    return root;
  };
  for (let i = 0; i + 1 < endStrips.length; i += 2) parent[rootOf(endStrips[i + 1] as number)] = rootOf(endStrips[i] as number);

  const all: { index: number; strips: string[]; legs: Leg[]; ends: WireEnd[] }[] = [];
  const netAt = new Int32Array(names.length).fill(-1);
  const ofStrip = new Map<string, Net>();
  const netOf = (strip: number) => {
    const root = rootOf(strip);
    if (netAt[root] === -1) netAt[root] = all.push({ index: all.length, strips: [], legs: [], ends: [] }) - 1;
    return all[netAt[root] as number] as (typeof all)[number];
  };
  for (const [strip, name] of names.entries()) {
    const net = netOf(strip);
    net.strips.push(name);
    ofStrip.set(name, net);
  }
  for (const [i, leg] of legs.entries()) netOf(legStrips[i] as number).legs.push(leg);
  for (const [i, end] of ends.entries()) netOf(endStrips[i] as number).ends.push(end);
  return { all, ofStrip };
}
