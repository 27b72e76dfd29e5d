/** The fewest wires whose removal parts two legs that are one net: a cut of the graph whose nodes are strips and whose edges are wires. */
import type { Leg } from '../board/layout.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { compareCounting } from '../units/text-list.ts';

/** One wire between two strips, and what may still flow along it from its first strip to its second, and back. */
interface Edge {
  readonly wire: string;
  readonly strips: readonly [string, string];
  /** the least goes first */
  readonly suspect: number;
  readonly room: [number, number];
}

/** More than what tells cuts of equally many wires apart adds up to. */
const ONE_WIRE = 1e9;
/** A wire that brings + to +, or − to −, is named only where more wires than these would have to go instead: it feeds what is right. Our choice. */
const FEEDS = 20;
/** More than the places of all wires of a net. */
const ONE_CLASS = 1e5;

/** What parts two legs. */
export interface Parting {
  /** ids, in counting order */
  readonly wires: readonly string[];
  /** each of them alone does: which one is wrong, the metal does not tell */
  readonly any: boolean;
}

const NONE: Parting = { wires: [], any: false };

/** The fewest wires; none where the two legs are in one strip, or are no one net. The order of the plan's wires changes nothing. */
export function partingWires(circuit: Circuit, one: Leg, other: Leg): Parting {
  if (one.strip === other.strip || circuit.netOf(one) !== circuit.netOf(other)) return NONE;
  const edges = edgesOf(circuit, one);
  const cut = leastCut(edges, one, other);
  const [wire] = cut;
  if (cut.length !== 1 || !wire) return { wires: idsOf(cut), any: false };
  const alike = edges.filter((e) => e === wire || (e.suspect === wire.suspect && leastCut(without(edges, e), one, other).length === 0));
  return { wires: idsOf(alike), any: alike.length > 1 };
}

const idsOf = (edges: readonly Edge[]): readonly string[] => edges.map((e) => e.wire).sort(compareCounting);
const without = (edges: readonly Edge[], one: Edge): readonly Edge[] => edges.filter((e) => e !== one);

function leastCut(wires: readonly Edge[], one: Leg, other: Leg): readonly Edge[] {
  const edges = wires.map((e): Edge => ({ ...e, room: [...e.room] }));
  const at = new Map<string, Edge[]>();
  for (const edge of edges) for (const strip of edge.strips) at.set(strip, [...(at.get(strip) ?? []), edge]);
  for (let way = wayThrough(at, one.strip); ; way = wayThrough(at, one.strip)) {
    if (way.has(other.strip)) {
      push(way, one.strip, other.strip);
      continue;
    }
    const near = (strip: string) => strip === one.strip || way.has(strip);
    return wires.filter(({ strips: [a, b] }) => near(a) !== near(b));
  }
}

function edgesOf(circuit: Circuit, leg: Leg): Edge[] {
  const own = new Set(circuit.netOf(leg).ends.map((e) => e.wire.id));
  const strips = new Map<string, string[]>();
  for (const { wire, strip } of circuit.layout.ends) if (own.has(wire.id)) strips.set(wire.id, [...(strips.get(wire.id) ?? []), strip]);
  const wires = circuit.plan.wires.filter((w) => own.has(w.id)).sort((a, b) => compareCounting(b.id, a.id));
  return wires.flatMap((wire, place): Edge[] => {
    const [a, b] = strips.get(wire.id) ?? [];
    const suspect = weightOf(wire);
    const room = suspect + place;
    return a === undefined || b === undefined || a === b ? [] : [{ wire: wire.id, strips: [a, b], suspect, room: [room, room] }];
  });
}

/** Fewer wires win; of equally many those that join + with −, then those on no rail, which nothing needs there, then those from a rail to a row. */
function weightOf({ from, to }: { readonly from: string; readonly to: string }): number {
  const [a, b] = [from, to].map((point) => /(?:^|[:.])([+-])/.exec(point)?.[1]);
  if (a === undefined && b === undefined) return ONE_WIRE + ONE_CLASS;
  if (a === undefined || b === undefined) return ONE_WIRE + 2 * ONE_CLASS;
  return a === b ? FEEDS * ONE_WIRE : ONE_WIRE;
}

/** By strip that can still be reached: the edge by which it was, breadth first. */
function wayThrough(at: ReadonlyMap<string, readonly Edge[]>, start: string): Map<string, Edge> {
  const by = new Map<string, Edge>();
  const waiting = [start];
  for (const here of waiting)
    for (const edge of at.get(here) ?? []) {
      const [from, there] = edge.strips[0] === here ? [0, edge.strips[1]] : [1, edge.strips[0]];
      if (there === start || by.has(there) || edge.room[from as 0 | 1] === 0) continue;
      by.set(there, edge);
      waiting.push(there);
    }
  return by;
}

function push(way: ReadonlyMap<string, Edge>, start: string, end: string): void {
  const steps: { readonly edge: Edge; readonly along: 0 | 1 }[] = [];
  for (let here = end; here !== start; ) {
    const edge = way.get(here) as Edge;
    const along = edge.strips[1] === here ? 0 : 1;
    steps.push({ edge, along });
    here = edge.strips[along];
  }
  const least = Math.min(...steps.map(({ edge, along }) => edge.room[along]));
  for (const { edge, along } of steps) {
    edge.room[along] -= least;
    edge.room[along === 0 ? 1 : 0] += least;
  }
}
