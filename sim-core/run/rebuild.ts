/** What goes on when the bench is put together again after an edit, and what begins again: parts, and the voltages of nets. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import type { Circuit } from './circuit/circuit.ts';

/** Parts that are not what they were: gone, come, of another kind or value, repaired, or with other bytes in them. Where a part stands does not count. */
export function restarts(before: Plan, after: Plan): ReadonlySet<string> {
  const was = new Map(before.parts.map((p) => [p.id, p]));
  const is = new Map(after.parts.map((p) => [p.id, p]));
  const others = [...was.keys(), ...is.keys()].filter((id) => {
    const [a, b] = [was.get(id), is.get(id)];
    return (
      !a ||
      !b ||
      (a !== b && (!sameValue(specimen(a), specimen(b)) || repaired(a, b))) ||
      before.memories[id] !== after.memories[id] ||
      before.cells?.[id] !== after.cells?.[id]
    );
  });
  return new Set(others);
}

/** Memories that are what they were but for their bytes. */
export const givenBytes = (before: Plan, after: Plan): ReadonlySet<string> =>
  restarts({ ...before, memories: after.memories, ...(after.cells ? { cells: after.cells } : {}) }, after).size === 0
    ? new Set(Object.keys(after.memories).filter((id) => before.memories[id] !== after.memories[id]))
    : new Set();

const specimen = ({ kind, params = {} }: PlanPart) => [kind, Object.entries(params).sort()];

/** Damaged before and not as now: another specimen. One that has lost a pin more, or its first, goes on with the others. */
function repaired({ damaged: was }: PlanPart, { damaged: is }: PlanPart): boolean {
  if (is && !is.pins) return !sameValue(was, is);
  return was !== undefined && (!was.pins || was.pins.some((pin) => !is?.pins?.includes(pin)));
}

/** What of a plan no current feels, whatever it says. */
const NOT_ELECTRICAL: readonly string[] = ['title', 'notes', 'wanted', 'proof', 'meant'] satisfies ReadonlyArray<keyof Plan>;

/** What of a plan is in its memories. */
const BYTES: readonly string[] = ['memories', 'cells'] satisfies ReadonlyArray<keyof Plan>;

/** Are the two one circuit with other bytes in it? */
export const isBytesApart = (a: Plan, b: Plan): boolean => isWiredAlike(a, b, BYTES);

/** Are the two the same bench to a current: names, colours, notes, the wanted table, its proof and places beside the boards differ at most? but: so may these. */
export function isWiredAlike(a: Plan, b: Plan, but: readonly string[] = []): boolean {
  const counts = ([key]: [string, unknown]): boolean => !NOT_ELECTRICAL.includes(key) && !but.includes(key);
  const { parts, wires, ...others } = a;
  const { parts: otherParts, wires: otherWires, ...rest } = b;
  const electrical = new Map(Object.entries(rest).filter(counts));
  const was = Object.entries(others).filter(counts);
  return (
    was.length === electrical.size &&
    was.every(([key, value]) => electrical.get(key) === value) &&
    alike(parts, otherParts, ({ label: _, spot: __, ...wired }) => wired) &&
    alike(wires, otherWires, ({ colour: _, ...wired }) => wired)
  );
}

/** Do the two differ by nothing but wires? */
export const isWiresApart = (a: Plan, b: Plan): boolean => isWiredAlike({ ...a, wires: b.wires }, b);

const alike = <T>(a: readonly T[], b: readonly T[], wired: (thing: T) => unknown): boolean =>
  a === b || (a.length === b.length && a.every((x, i) => x === b[i] || (b[i] !== undefined && sameValue(wired(x), wired(b[i])))));

/**
 * Each new net starts at the voltage of that one of its old nets that had the most legs: a row that joins a rail takes the rail's. What a part keeps
 * inside, it keeps.
 */
export function voltagesAfterRewiring(before: { circuit: Circuit; x: Float64Array }, after: Circuit): Float64Array {
  const x = new Float64Array(after.network.n + 1);
  const metal = after.netOfNode.slice(0, after.network.n - after.innerNodes.length);
  for (const [node, netIndex] of metal.entries()) {
    let most = 0;
    for (const strip of after.nets.all[netIndex]?.strips ?? []) {
      const old = before.circuit.nets.ofStrip.get(strip);
      if (!old || old.legs.length < most) continue;
      most = old.legs.length;
      const oldNode = before.circuit.nodeOfNet[old.index] as number;
      x[node] = oldNode < 0 ? 0 : (before.x[oldNode] as number);
    }
  }
  for (const { node, placed, turn } of after.innerNodes) {
    const old = before.circuit.innerNodes.find(
      (i) => i.turn === turn && i.placed.part.id === placed.part.id && i.placed.kind === placed.kind,
    );
    if (old) x[node] = before.x[old.node] as number;
  }
  return x;
}
