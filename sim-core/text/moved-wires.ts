/** Wires moved to each other's places, as one act: "D0 to D6 are reversed between U1 and U2: move these 6 wires". */
import { grouped } from '../../shared/grouped.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Change } from '../document/changes.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import { sayOrder } from '../sentence/compared-images.ts';

type WireMove = Extract<Change, { readonly list: 'wires'; readonly op: 'replace' }>;

interface MovedEnd extends Pick<WireMove, 'before' | 'after'> {
  readonly end: 'from' | 'to';
}

/** The ends, if that is all that the change does and each goes where another was. */
export function movedEndsOf(change: Change): readonly MovedEnd[] | undefined {
  if (change.op !== 'all' || change.changes.length < 2) return undefined;
  const ends = change.changes.flatMap((c): MovedEnd[] => {
    if (c.op !== 'replace' || c.list !== 'wires') return [];
    const { before, after } = c;
    return (['from', 'to'] as const).flatMap((end) => (before[end] === after[end] ? [] : [{ before, after, end }]));
  });
  const were = new Set(ends.map((e) => e.before[e.end]));
  return ends.length === change.changes.length && ends.every((e) => were.has(e.after[e.end])) ? ends : undefined;
}

/** What is wrong, and what to do; without the wires' names. plan: the bench before it. */
export function sayMovedWires(ends: readonly MovedEnd[], plan: Plan): string {
  const act = `ove these ${grouped(ends.length)} wires`;
  const circuit = buildCircuit(plan);
  const what = circuit.ok ? sayMixedUp(circuit.value, ends) : undefined;
  return what === undefined ? `M${act} to each other’s places` : `${what}: m${act}`;
}

/** "U1.D0" apart: the chip, the bus and the number of the pin in whose row this end of a wire is. */
function pinAt({ layout, chips }: Circuit, wire: string, end: 'from' | 'to') {
  const strip = layout.ends.find((e) => e.wire.id === wire && e.end === end)?.strip;
  for (const { placed, inputs, outputs } of chips)
    for (const { name, leg } of [...outputs, ...inputs]) {
      const [, bus, number] = /^([AD])(\d+)$/.exec(name) ?? [];
      if (leg.strip === strip && bus !== undefined) return { chip: placed.part.id, bus, number: Number(number) };
    }
  return undefined;
}

function sayMixedUp(circuit: Circuit, ends: readonly MovedEnd[]): string | undefined {
  const pins = ends.map((e) => pinAt(circuit, e.before.id, e.end));
  const [first] = pins;
  if (!first || pins.some((p) => p?.chip !== first.chip || p.bus !== first.bus)) return undefined;
  const order = Array.from({ length: 1 + Math.max(...pins.map((p) => p?.number ?? 0)) }, (_, i) => i);
  for (const [i, e] of ends.entries()) {
    const to = ends.findIndex((o) => o.before[o.end] === e.after[e.end]);
    order[pins[i]?.number ?? 0] = pins[to]?.number ?? 0;
  }
  const are = sayOrder(order, (i) => `${first.bus}${i}`).replace(/ (reversed|swapped|rotated)/g, ' are $1');
  const others = new Set(ends.flatMap((e) => partsAt(circuit, e.before.id, e.end === 'from' ? 'to' : 'from')));
  const shared = [...others].filter((id) =>
    ends.every((e) => partsAt(circuit, e.before.id, e.end === 'from' ? 'to' : 'from').includes(id)),
  );
  return `${are} ${shared[0] === undefined ? `at ${first.chip}` : `between ${first.chip} and ${shared[0]}`}`;
}

/** Parts with a leg where this end of a wire is. */
function partsAt({ layout }: Circuit, wire: string, end: 'from' | 'to'): readonly string[] {
  const strip = layout.ends.find((e) => e.wire.id === wire && e.end === end)?.strip;
  return layout.legs.filter((l) => l.strip === strip).map((l) => l.part.id);
}
