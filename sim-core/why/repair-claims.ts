/** What a repair that was found shows to be so, in the terms of a chain of causes: what is missing, wrong or damaged. */
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import { readHole, stripAt } from '../board/tie-points.ts';
import type { Change } from '../document/changes.ts';
import { digitsByAddress } from '../document/memory-rows.ts';
import type { FaultBench } from '../faults/fault-bench.ts';
import { toPart, toPin } from '../findings/rule.ts';
import { storedDifferences } from '../findings/stored-differences.ts';
import { tablePins } from '../findings/table-pins.ts';
import type { RepairCandidate } from '../repair/candidate.ts';
import { STORE_TABLE } from '../repair/renewals.ts';
import { valuesApart } from '../sentence/part-values.ts';
import type { Ref } from '../sentence/wording.ts';
import type { Reason } from './answer.ts';
import type { CandidateFix } from './explanation-step.ts';
import { isRail } from './nearby-holes.ts';

/** The repair as a fix, whose act is said from its change. */
export function repairFix(bench: FaultBench, { kind, change, things }: RepairCandidate): CandidateFix {
  return { code: 'put-right', at: things.slice(0, 1), data: {}, change, claims: claimOf(bench, kind, change, things) };
}

function claimOf(bench: FaultBench, kind: string, change: Change, things: readonly Ref[]): Reason {
  const [first] = eachOf(change);
  const mends: Reason = { code: 'put-right-mends', at: things, data: { kind, ...whatIsMoved(bench.plan, change) } };
  if (kind === STORE_TABLE) return unlikeTable(bench, things) ?? mends;
  if (kind === 'join-rails') return railsApart(bench, change);
  if (first?.op === 'remove' && first.list === 'wires') return { code: 'wire-too-many', at: things, data: {} };
  if (first?.op === 'insert' && first.list === 'wires')
    return { code: 'wire-missing', at: [standingAt(bench, first.item.from), standingAt(bench, first.item.to)], data: {} };
  if (first?.op === 'insert' && first.list === 'parts' && first.item.to !== undefined)
    return {
      code: 'part-missing',
      at: [...things, standingAt(bench, first.item.at ?? ''), standingAt(bench, first.item.to)],
      data: partData(first.item),
    };
  if (first?.op === 'replace' && first.list === 'parts' && first.before.damaged && !first.after.damaged)
    return damaged(bench, first.before);
  if (first?.op === 'set' && first.field === 'switches') return { code: 'supply-off', at: things, data: {} };
  return mends;
}

/** how: what of it is not right; is, becomes: where or what it is, and what it is once every row is right. */
function whatIsMoved({ boards }: Plan, change: Change): Reason['data'] {
  const all = eachOf(change);
  const [first, second] = all;
  if (first?.op === 'replace' && first.list === 'parts' && !second) return ofPart(boards, first.before, first.after);
  const ends = all.flatMap((c) => (c.op === 'replace' && c.list === 'wires' ? endsMoved(c.before, c.after) : []));
  const [one, other] = ends;
  if (!one || ends.length !== all.length) return {};
  if (!other) return { how: 'end', ...one };
  return ends.length === 2 && one.is === other.becomes && other.is === one.becomes ? { how: 'exchanged' } : {};
}

const endsMoved = (before: PlanWire, after: PlanWire) =>
  (['from', 'to'] as const).flatMap((end) => (before[end] === after[end] ? [] : [{ is: before[end], becomes: after[end] }]));

function ofPart(boards: Plan['boards'], before: PlanPart, after: PlanPart): Reason['data'] {
  if (before.kind !== after.kind) return { how: 'kind', becomes: after.kind };
  const values = valuesApart(before, after);
  if (values) return { how: 'value', is: values.is, becomes: values.other };
  if (before.rotated !== after.rotated) return { how: 'turned' };
  if (before.to !== undefined && before.at === after.to && before.to === after.at) return { how: 'reversed' };
  const legs = (['at', 'to'] as const).filter((leg) => before[leg] !== after[leg]);
  const [leg] = legs;
  if (!leg || legs.length > 1) return {};
  const [is, becomes] = [before[leg] ?? '', after[leg] ?? ''];
  if (before.to !== undefined) return { how: 'leg', is, becomes };
  const rows = [is, becomes].map((hole) => readHole(hole, boards)).flatMap((h) => (h.ok && 'row' in h.value ? [h.value] : []));
  const [was, will] = rows;
  return { how: was && will && was.board === will.board && Math.abs(was.row - will.row) === 1 ? 'row' : 'place', is, becomes };
}

const eachOf = (change: Change): readonly Exclude<Change, { readonly op: 'all' }>[] =>
  change.op === 'all' ? change.changes.flatMap(eachOf) : [change];

/** What this hole leads to: a pin of a chip in its row, or anywhere on its net, else a leg in its row, else the hole itself, as of a rail. */
function standingAt({ circuit, plan }: FaultBench, point: string): Ref {
  const strip = stripAt(point, plan.boards);
  const legs = circuit.layout.legs.filter((l) => l.strip === strip);
  const isOfChip = (l: Leg) => circuit.chipById.has(l.part.id);
  const leg = isRail(strip) ? undefined : (legs.find(isOfChip) ?? circuit.nets.ofStrip.get(strip)?.legs.find(isOfChip) ?? legs[0]);
  return leg ? toPin(leg) : { kind: 'point', id: point };
}

const partData = ({ params }: PlanPart): Reason['data'] => (typeof params?.ohms === 'number' ? { ohms: params.ohms } : {});

/** Rails that these wires join: the halves of one that is cut, or rails of two sides. */
function railsApart({ plan }: FaultBench, change: Change): Reason {
  const holes = eachOf(change).flatMap((c) => (c.op === 'insert' && c.list === 'wires' ? [c.item.from] : []));
  const boards = new Set(holes.map((h) => stripAt(h, plan.boards).split('/')[0] ?? ''));
  const isCut = plan.boards.some((b) => boards.has(b.id) && b.splitRails);
  return { code: isCut ? 'rails-cut' : 'rails-apart', at: [...boards].map((id): Ref => ({ kind: 'board', id })), data: {} };
}

function damaged({ circuit }: FaultBench, { id, damaged: damage }: PlanPart): Reason {
  const placed = circuit.placed.get(id);
  const data = { by: damage?.by ?? '', measured: damage?.measured ?? 0, limit: damage?.limit ?? 0 };
  const at: readonly Ref[] = placed ? [toPart(placed)] : [{ kind: 'part', id }];
  const leg =
    damage?.pins && placed?.legs.find((l) => placed.kind.pins(placed.params).some((p) => p.pin === l.pin && damage.pins?.includes(p.name)));
  return leg && circuit.chipById.has(id) ? { code: 'pin-damaged', at: [toPin(leg), ...at], data } : { code: 'part-damaged', at, data };
}

/** The first byte of these memories that differs from the table, and how many do. */
function unlikeTable({ circuit, plan }: FaultBench, things: readonly Ref[]): Reason | undefined {
  const { wanted } = plan;
  if (!wanted) return undefined;
  for (const pins of tablePins(circuit)) {
    if (!things.some((t) => t.id === pins.memory)) continue;
    const wrong = storedDifferences(wanted, pins, digitsByAddress(plan.memories[pins.memory]));
    const [first] = wrong;
    if (!first) continue;
    const { address, stored, wants } = first;
    const data = { address, digits: Math.ceil(pins.address.length / 4), stored, wants, bytes: wrong.length };
    return { code: 'bytes-unlike-table', at: [{ kind: 'part', id: pins.memory }, ...things], data };
  }
  return undefined;
}
