/** What a hand does to make a repair, as sentences made from its change: "Move the end of wire W7 from b12 to b13." */
import { grouped } from '../../shared/grouped.ts';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import type { Change, EntryChange } from '../document/changes.ts';
import { digitsByAddress } from '../document/memory-rows.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import type { RepairProgress } from '../repair/search.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import { valuesApart } from '../sentence/part-values.ts';
import { hexAddress } from '../units/hex.ts';
import { enumeration } from '../units/text-list.ts';
import { movedEndsOf, sayMovedWires } from './moved-wires.ts';

/** The heading of what a search for a repair has found, or the sentence that it has found none. */
export function sayRepairsFound({
  tried,
  toWrite,
  repairs,
}: Pick<RepairProgress, 'tried' | 'toWrite'> & { readonly repairs: readonly unknown[] }): string {
  const once = toWrite.length > 0 ? `, once the table is written into ${enumeration(toWrite)}` : '';
  if (repairs.length === 0)
    return `No single edit of the ${grouped(tried)} that were tried makes every row right${once}. Two things may be wrong.`;
  return `Every row is right after ${repairs.length === 1 ? 'this' : 'one of these, the likeliest first'}${once}:`;
}

/** plan: the bench that is to be repaired. */
export function sayRepair(change: Change, plan: Plan): string {
  const ends = movedEndsOf(change);
  if (!ends) return sentencesOf(change, plan).join(' ');
  return `${sayMovedWires(ends, plan)}: ${ends.map((e) => `${e.before.id} from ${e.before[e.end]} to ${e.after[e.end]}`).join(', ')}.`;
}

function sentencesOf(change: Change, plan: Plan): readonly string[] {
  if (change.op === 'all') return change.changes.flatMap((c) => sentencesOf(c, plan));
  if (change.op === 'set-rows') return [];
  if (change.op === 'set') {
    if (!('id' in change)) return [];
    if (change.field === 'memories') return [ofBytes(change, plan)];
    return change.field === 'switches' ? [`Switch ${change.id} ${change.after?.[0] ? 'on' : 'off'}.`] : [];
  }
  if (change.list === 'wires') return [ofWire(change)];
  if (change.list === 'parts') return [ofPart(change)];
  return change.list === 'boards' && change.op === 'replace'
    ? [`Take board ${change.after.id} with ${change.after.splitRails ? 'cut' : 'whole'} rails.`]
    : [];
}

/** One byte by its address, more by their number. */
function ofBytes({ id, before, after }: EntryChange<'memories'>, plan: Plan): string {
  const [was, is] = [before, after].map((rows) => digitsByAddress(rows));
  const addresses = [...new Set([...(was?.keys() ?? []), ...(is?.keys() ?? [])])].filter(
    (a) => (was?.get(a) ?? 'FF') !== (is?.get(a) ?? 'FF'),
  );
  const [only] = addresses;
  if (only !== undefined && addresses.length === 1)
    return `Write ${is?.get(only) ?? 'FF'} to address ${hexAddress(only, sizeOf(plan, id))} of ${id}.`;
  return `Write the table into ${id}${addresses.length > 0 ? `: ${grouped(addresses.length)} bytes differ` : ''}.`;
}

/** So many addresses this memory has. */
function sizeOf(plan: Plan, memory: string): number {
  const circuit = buildCircuit(plan);
  const lines = circuit.ok ? circuit.value.chipById.get(memory)?.spec.word?.address.length : undefined;
  return 2 ** (lines ?? 0);
}

type OfList<L> = Extract<Change, { readonly list: L }>;

function ofWire(change: OfList<'wires'>): string {
  if (change.op === 'insert') return `Connect ${change.item.from} and ${change.item.to} with a wire.`;
  if (change.op === 'remove') return `Remove wire ${change.item.id}.`;
  const { before, after } = change;
  const moved = (['from', 'to'] as const).filter((end) => before[end] !== after[end]);
  if (moved.length === 2 && before.from === after.to && before.to === after.from) return `Turn wire ${before.id} round.`;
  return moved.map((end) => `Move the end of wire ${before.id} from ${before[end]} to ${after[end]}.`).join(' ') || wireAgain(before);
}

const wireAgain = ({ id }: PlanWire): string => `Put wire ${id} in again.`;

function ofPart(change: OfList<'parts'>): string {
  if (change.op === 'insert') return `Add ${called(change.item)} ${between(change.item)}.`;
  if (change.op === 'remove') return `Remove ${change.item.id}.`;
  const { before, after } = change;
  const { id } = before;
  if (before.kind !== after.kind) return `Put a ${(partKind(after.kind)?.title ?? after.kind).toLowerCase()} in the place of ${id}.`;
  if (before.damaged && !after.damaged) return `Replace ${id}.`;
  const values = valuesApart(before, after);
  if (values) return `Set ${id} to ${values.other}.`;
  if (before.at === after.to && before.to === after.at && before.to !== undefined) return `Reverse ${id}.`;
  if (before.rotated !== after.rotated) return `Turn ${id} end for end.`;
  if (before.to === undefined) return `Move ${id} so that its pin 1 is in ${after.at ?? 'no hole'}, and leave its wires where they are.`;
  const legs = (['at', 'to'] as const).filter((leg) => before[leg] !== after[leg]);
  return legs.map((leg) => `Move the leg of ${id} from ${before[leg]} to ${after[leg]}.`).join(' ') || `Put ${id} in again.`;
}

const between = ({ at, to }: PlanPart): string => (to === undefined ? `at ${at}` : `between ${at} and ${to}`);

const called = (part: PlanPart): string => `${(partKind(part.kind)?.title ?? part.kind).toLowerCase()} ${part.id}, ${printedValue(part)},`;

function printedValue(part: PlanPart): string {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  return (params?.ok && kind?.value?.(params.value)) || part.kind;
}
