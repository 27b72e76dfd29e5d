/** Single edits near the chain of causes that might undo a mistake: what people do wrong, done backwards, at the things and the rows that the chain names. */
import type { PlanWire } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../faults/catalogue.ts';
import type { FoundFault } from '../faults/fault.ts';
import { faultBench } from '../faults/fault-bench.ts';
import type { LedSite } from '../run/circuit/sites.ts';
import type { Ref } from '../sentence/wording.ts';
import type { Reason } from './answer.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';
import { stripBeside } from './nearby-holes.ts';

/** Edits beyond so many are not tried. */
const MOST = 60;
/** How far off a hand may have pushed a leg or a wire [rows]. */
const REACH = 2;

/**
 * Kinds of mistake whose edit, made on the bench as it stands, is also the edit that undoes one: an end one row on undoes an end one row back. Those that
 * take something away, or damage it, are none.
 */
const BACKWARDS: ReadonlySet<string> = new Set([
  'chip-rotated',
  'chip-row-off',
  'display-polarity',
  'display-rotated',
  'display-row-off',
  'enable-wrong-rail',
  'led-reversed',
  'leg-row-off',
  'leg-wrong-rail',
  'power-wire-wrong-rail',
  'resistor-tenfold',
  'resistor-tenth',
  'supply-reversed',
  'supply-wire-wrong-rail',
  'switch-rotated',
  'switch-row-off',
  'wire-across-trench',
  'wire-row-off',
  'wire-two-rows-off',
  'wire-wrong-rail',
  'wires-swapped',
]);
/** Parts with many legs are near every chain that ends at a pin: one of them a row off moves all its pins. */
const WHOLE_PARTS: ReadonlySet<string> = new Set([
  'chip-rotated',
  'chip-row-off',
  'display-polarity',
  'display-rotated',
  'display-row-off',
  'supply-reversed',
  'supply-wire-wrong-rail',
  'power-wire-wrong-rail',
  'switch-rotated',
  'switch-row-off',
]);

/** The likeliest first. */
export function suspects(q: ExplanationQuestion, reasons: readonly Reason[], site: LedSite): readonly CandidateFix[] {
  const bench = faultBench(q.sim.plan());
  if (!bench.ok) return [];
  const near = thingsNear(q, reasons, site);
  const isNear = ({ things }: FoundFault) => things.some((t) => near.has(`${t.kind} ${t.id}`));
  return FAULT_KINDS.filter(({ kind }) => BACKWARDS.has(kind))
    .flatMap(({ kind, weight, find }) => {
      const found = [...find(bench.value)].filter((f) => WHOLE_PARTS.has(kind) || isNear(f));
      return found.map((fault) => ({ kind, fault, prior: weight / found.length }));
    })
    .sort((a, b) => b.prior - a.prior)
    .slice(0, MOST)
    .map(({ kind, fault }) => undoing(kind, fault))
    .concat(q.sim.plan().wires.flatMap((item, index) => (near.has(`wire ${item.id}`) ? [without(item, index)] : [])));
}

const undoing = (kind: string, { things, change }: FoundFault): CandidateFix => ({
  code: 'put-right',
  at: things.slice(0, 1),
  data: {},
  change,
  claims: { code: 'put-right-mends', at: things, data: { kind } },
});

/** A wire that joins what should stay apart. */
const without = (item: PlanWire, index: number): CandidateFix => ({
  code: 'remove-wire',
  at: [{ kind: 'wire', id: item.id }],
  data: {},
  change: { op: 'remove', list: 'wires', item, index },
  claims: { code: 'wire-too-many', at: [{ kind: 'wire', id: item.id }], data: {} },
});

/** Wires and parts on the nets that the chain names, or in a row beside one of their ends. */
function thingsNear({ scene: { circuit } }: ExplanationQuestion, reasons: readonly Reason[], site: LedSite): ReadonlySet<string> {
  const { legs, ends } = circuit.layout;
  const refs = [
    ...reasons.flatMap((r) => r.at),
    ...[site.anode, site.cathode].map((l): Ref => ({ kind: 'pin', id: `${l.part.id}.${l.pin}` })),
  ];
  const strips = new Set<string>();
  const note = (strip: string) => {
    for (const s of circuit.nets.ofStrip.get(strip)?.strips ?? [strip])
      for (let by = -REACH; by <= REACH; by++) strips.add((by === 0 ? s : stripBeside(s, by)) ?? s);
  };
  for (const { kind, id } of refs) {
    if (kind === 'pin') for (const l of legs) if (`${l.part.id}.${l.pin}` === id) note(l.strip);
    if (kind === 'wire') for (const e of ends) if (e.wire.id === id) note(e.strip);
    if (kind === 'part') for (const l of legs) if (l.part.id === id && l.part.to !== undefined) note(l.strip);
  }
  return new Set([
    ...refs.map(
      (r) =>
        `${r.kind === 'led' || r.kind === 'pin' ? 'part' : r.kind} ${r.kind === 'pin' || r.kind === 'led' ? r.id.split('.')[0] : r.id}`,
    ),
    ...ends.filter((e) => strips.has(e.strip)).map((e) => `wire ${e.wire.id}`),
    ...legs.filter((l) => strips.has(l.strip) && l.part.to !== undefined).map((l) => `part ${l.part.id}`),
  ]);
}
