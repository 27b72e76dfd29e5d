/** What a repair that was found shows to be so, in the terms of a chain of causes: what is missing, wrong or damaged. */
import type { PlanPart } from '../../shared/plan.ts';
import { stripAt } from '../board/tie-points.ts';
import type { Change } from '../document/changes.ts';
import { digitsByAddress } from '../document/memory-rows.ts';
import type { FaultBench } from '../faults/fault-bench.ts';
import { toPart, toPin } from '../findings/rule.ts';
import { storedDifferences } from '../findings/stored-differences.ts';
import { tablePins } from '../findings/table-pins.ts';
import type { RepairCandidate } from '../repair/candidate.ts';
import type { Ref } from '../sentence/wording.ts';
import type { Reason } from './answer.ts';
import type { CandidateFix } from './explanation-step.ts';

/** The repair as a fix, whose act is said from its change. */
export function repairFix(bench: FaultBench, { kind, change, things }: RepairCandidate): CandidateFix {
  return { code: 'put-right', at: things.slice(0, 1), data: {}, change, claims: claimOf(bench, kind, change, things) };
}

function claimOf(bench: FaultBench, kind: string, change: Change, things: readonly Ref[]): Reason {
  const [first] = eachOf(change);
  const mends: Reason = { code: 'put-right-mends', at: things, data: { kind } };
  if (kind === 'store-table') return unlikeTable(bench, things) ?? mends;
  if (kind === 'join-rails') return { code: 'rails-cut', at: railsOf(bench, change), data: {} };
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
  return mends;
}

const eachOf = (change: Change): readonly Exclude<Change, { readonly op: 'all' }>[] =>
  change.op === 'all' ? change.changes.flatMap(eachOf) : [change];

/** What stands in the row of this hole: a pin of a chip if there is one, else any leg, else the hole itself. */
function standingAt({ circuit, plan }: FaultBench, point: string): Ref {
  const strip = stripAt(point, plan.boards);
  const legs = circuit.layout.legs.filter((l) => l.strip === strip);
  const leg = legs.find((l) => circuit.chipById.has(l.part.id)) ?? legs[0];
  return leg ? toPin(leg) : { kind: 'point', id: point };
}

const partData = ({ params }: PlanPart): Reason['data'] => (typeof params?.ohms === 'number' ? { ohms: params.ohms } : {});

/** Boards whose rails' halves these wires join. */
function railsOf({ plan }: FaultBench, change: Change): readonly Ref[] {
  const holes = eachOf(change).flatMap((c) => (c.op === 'insert' && c.list === 'wires' ? [c.item.from] : []));
  const boards = new Set(holes.map((h) => stripAt(h, plan.boards).split('/')[0] ?? ''));
  return [...boards].map((id): Ref => ({ kind: 'board', id }));
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
