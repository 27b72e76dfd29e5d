/** In which stages a bench is built: power, memory, inputs, outputs, writing, and the chips last; what belongs to each, and the bench as it stands after it. */
import type { Plan } from '../../shared/plan.ts';
import { partKind } from '../parts/catalogue.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { type Section, WiringOrder } from './wiring-order.ts';

/** The stages in building order. Chips are fitted when all else has been measured. */
export const STAGES = ['power', 'memory', 'inputs', 'outputs', 'writing', 'chips'] as const;
/** One stage of building a bench. */
export type StageName = (typeof STAGES)[number];

/** A pin of a memory that a wire ties to a rail belongs to the memory, be it an address pin or an enable. */
const stageOfSection = (section: Section, ties: boolean): StageName =>
  section === 'enables' || (section === 'inputs' && ties) ? 'memory' : section;

/** By id of every part and wire. */
export type StageOfThing = ReadonlyMap<string, StageName>;

/** circuit: of the whole bench. */
export function stagesOfThings(circuit: Circuit, order: WiringOrder = new WiringOrder(circuit)): StageOfThing {
  const parts = new Map([...circuit.placed.values()].map((p) => [p.part.id, stageOfSection(order.sectionOfPart(p), false)] as const));
  // a wire to a terminal comes with the part that has it, not before
  const terminal = (point: string) => parts.get(point.split('.')[0] ?? '');
  const wires = circuit.plan.wires.map((w) => {
    const own = stageOfSection(order.sectionOfWire(w), order.ties(w));
    return [w.id, STAGES.findLast((s) => [own, terminal(w.from), terminal(w.to)].includes(s)) ?? own] as const;
  });
  return new Map<string, StageName>([...parts, ...wires]);
}

/**
 * The bench with nothing that comes in a later stage, all switches open and supplies off. What `stages` does not name is there from the beginning. Memories
 * keep their bytes once they are fitted.
 */
export function benchAfter(plan: Plan, stages: StageOfThing, stage: StageName): Plan {
  const last = STAGES.indexOf(stage);
  const isThere = ({ id }: { readonly id: string }) => STAGES.indexOf(stages.get(id) ?? 'power') <= last;
  const { cells, wanted: _, proof: __, meant: ___, ...rest } = plan;
  const fitted = stage === 'chips';
  return {
    ...rest,
    parts: plan.parts.filter(isThere),
    wires: plan.wires.filter(isThere),
    memories: fitted ? plan.memories : {},
    ...(fitted && cells ? { cells } : {}),
    meters: [],
    switches: {},
  };
}

export const isSupply = (part: { readonly kind: string }): boolean => partKind(part.kind)?.group === 'supply';
