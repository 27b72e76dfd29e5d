/** Changes of a plan by chance, as mistakes and repairs make them: wires moved, parts turned, values and bytes changed. Some do not fit; the caller sees. */
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { sameStrip } from '../../sim-core/board/tie-points.ts';
import { storing, withByte } from '../../sim-core/document/memory-writes.ts';
import { byteAt, type Change, holeName, holesOf, readHole } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

type Chance = <T>(of: readonly T[]) => T;

const chanceOf = (seed: number): Chance => {
  const random = makeRandom(seed);
  return (of) => of[Math.floor(random() * of.length)] as never;
};

const replaceWire = (before: PlanWire, after: PlanWire): Change => ({ op: 'replace', list: 'wires', before, after });
const replacePart = (before: PlanPart, after: PlanPart): Change => ({ op: 'replace', list: 'parts', before, after });

/** Holes of the bench that nothing is in. */
function freeHoles(plan: Plan, taken: ReadonlyMap<string, string>): string[] {
  return plan.boards.flatMap((board) => holesOf(board).map((hole) => holeName(hole, plan.boards))).filter((name) => !taken.has(name));
}

/** The hole one row further, or this one where there is none. */
function besides(plan: Plan, point: string, by: number): string {
  const hole = readHole(point, plan.boards);
  if (!hole.ok || !('row' in hole.value)) return point;
  const name = holeName({ ...hole.value, row: hole.value.row + by }, plan.boards);
  return readHole(name, plan.boards).ok ? name : point;
}

/** One change of this plan. taken: what is in its holes. */
export function anyChange(plan: Plan, taken: ReadonlyMap<string, string>, seed: number): Change {
  const chance = chanceOf(seed);
  const wire = chance(plan.wires);
  const part = chance(plan.parts);
  const index = plan.wires.indexOf(wire);
  const end = chance(['from', 'to'] as const);
  const ways: readonly (() => Change)[] = [
    () => ({ op: 'remove', list: 'wires', item: wire, index }),
    () => replaceWire(wire, { ...wire, [end]: besides(plan, wire[end], chance([-1, 1])) }),
    () => replaceWire(wire, { ...wire, [end]: chance(freeHoles(plan, taken)) }),
    () => ({
      op: 'insert',
      list: 'wires',
      item: { id: 'WX', from: chance(freeHoles(plan, taken)), to: chance(freeHoles(plan, taken)), colour: 'green' },
      index: plan.wires.length,
    }),
    () => ({ op: 'remove', list: 'parts', item: part, index: plan.parts.indexOf(part) }),
    () => replacePart(part, part.at && part.to ? { ...part, at: part.to, to: part.at } : { ...part, label: 'x' }),
    () => replacePart(part, part.at ? { ...part, at: besides(plan, part.at, chance([-1, 1])) } : part),
    () => replacePart(part, part.to ? { ...part, to: besides(plan, part.to, chance([-1, 1])) } : part),
    () => {
      const resistor = chance(plan.parts.filter((p) => p.kind === 'resistor'));
      const ohms = Number(resistor.params?.ohms ?? 330) * chance([0.1, 10, 100]);
      return replacePart(resistor, { ...resistor, params: { ...resistor.params, ohms } });
    },
    () => {
      const [id] = Object.keys(plan.memories);
      if (id === undefined) return replaceWire(wire, { ...wire, colour: 'violet' });
      const address = chance(Array.from({ length: 64 }, (_, a) => a));
      const byte = byteAt(plan.memories[id], address) ^ (1 << chance([0, 1, 2, 3, 4, 5, 6, 7]));
      return storing(plan, id, withByte(plan.memories[id], address, byte));
    },
    () => ({ op: 'set', field: 'title', before: plan.title, after: 'Another' }),
  ];
  return chance(ways)();
}

/** A change that leaves the circuit what it is: a wire's end, or a leg of a resistor or a ceramic capacitor, in another hole of its strip; or one turned round. */
export function sameCircuit(plan: Plan, taken: ReadonlyMap<string, string>, seed: number): Change | undefined {
  const chance = chanceOf(seed);
  const within = (point: string): string | undefined => {
    const hole = readHole(point, plan.boards);
    const free = hole.ok
      ? sameStrip(hole.value)
          .map((h) => holeName(h, plan.boards))
          .filter((name) => !taken.has(name))
      : [];
    return free.length > 0 ? chance(free) : undefined;
  };
  const wire = chance(plan.wires);
  const end = chance(['from', 'to'] as const);
  const turnable = plan.parts.filter((p) => p.kind === 'resistor' || p.kind === 'capacitor');
  const part = chance(turnable.length > 0 ? turnable : plan.parts);
  const leg = chance(['at', 'to'] as const);
  return chance<() => Change | undefined>([
    () => {
      const to = within(wire[end]);
      return to === undefined ? undefined : replaceWire(wire, { ...wire, [end]: to });
    },
    () => {
      const to = turnable.length > 0 && part[leg] !== undefined ? within(part[leg]) : undefined;
      return to === undefined ? undefined : replacePart(part, { ...part, [leg]: to });
    },
    () => (turnable.length > 0 && part.at && part.to ? replacePart(part, { ...part, at: part.to, to: part.at }) : undefined),
  ])();
}
