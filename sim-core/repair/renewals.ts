/** Edits that renew: the table into the memories, a new part for a damaged one, rails joined, the supply as it comes, a leg out of its neighbour's row. */

import { RAILS } from '../board/boards.ts';
import { holeName, holeSpot, isRailHole, railHoleNear, readHole, sameStrip, stripOf } from '../board/tie-points.ts';
import { type Change, setEntry } from '../document/changes.ts';
import { reLeg } from '../document/edits/properties.ts';
import { joinRails } from '../document/edits/wires.ts';
import { digitsByAddress } from '../document/memory-rows.ts';
import { replacing } from '../document/memory-writes.ts';
import { type FaultBench, isPull, onTwoLegs, resistorsOf, sideOf } from '../faults/fault-bench.ts';
import { storeTable } from '../findings/store-table.ts';
import { pinsOffTable } from '../findings/stored-elsewhere.ts';
import { tablePins } from '../findings/table-pins.ts';
import { candidateOf, crowding, type RepairCandidate } from './candidate.ts';

/** The kind of the repair that writes the table into the memories, one of them or all. */
export const STORE_TABLE = 'store-table';

/** As likely beside all wires as the catalogue of mistakes has them; our judgement. */
const WEIGHTS = { image: 12, damaged: 50, rails: 5, supply: 50, value: 2 } as const;
/** A memory that holds the table where an address pin at + keeps the bench from reading it was written well; our choice. */
const ELSEWHERE = 1e-4;
/** A resistor that holds an input has the value of those that do, one of an LED that of the other LEDs' resistors; our choice. */
const LIKE_ITS_OWN = 20;
/** A part with both legs on one net does nothing: its leg is the first thing to move. */
const SHORTED = 30;

export function renewals(bench: FaultBench): readonly RepairCandidate[] {
  return [...images(bench), ...damaged(bench), ...rails(bench), ...supplies(bench), ...values(bench), ...legs(bench)];
}

function images({ plan, circuit }: FaultBench): readonly RepairCandidate[] {
  const chips = tablePins(circuit);
  const stored = storeTable(plan, chips);
  if (!stored.ok || stored.value.op !== 'all') return [];
  const all = stored.value.changes;
  const { wanted } = plan;
  const isElsewhere =
    wanted !== undefined &&
    chips.some((pins) => {
      const off = pinsOffTable(wanted, pins, digitsByAddress(plan.memories[pins.memory]));
      // pins that no input uses belong to GND: one that is there is right, and the memory was written elsewhere
      return off?.some((pin) => pins.address[pin] === 'high') ?? false;
    });
  const weight = (isElsewhere ? ELSEWHERE : 1) * WEIGHTS.image;
  return [...(all.length > 1 ? all : []), stored.value].map((c) => candidateOf(STORE_TABLE, c, weight / (all.length + 1)));
}

const damaged = ({ plan }: FaultBench): readonly RepairCandidate[] =>
  plan.parts.filter((p) => p.damaged).map((p) => candidateOf('replace', replacing(plan, p), WEIGHTS.damaged));

function rails({ context, plan }: FaultBench): readonly RepairCandidate[] {
  const joined = joinRails(context);
  if (!joined.ok || joined.value.op !== 'all')
    // no room for wires between the halves
    return plan.boards
      .filter((b) => b.splitRails)
      .map((before) =>
        candidateOf('rails-whole', { op: 'replace', list: 'boards', before, after: { ...before, splitRails: false } }, WEIGHTS.rails),
      );
  const each = joined.value.changes;
  return [...(each.length > 1 ? each : []), joined.value].map((c) => candidateOf('join-rails', c, WEIGHTS.rails / (each.length + 1)));
}

/** Supplies that are off, switched on. */
export const switchedOff = ({ plan, circuit }: FaultBench): readonly RepairCandidate[] =>
  circuit.supplies
    .filter((s) => plan.switches[s.placed.part.id]?.[0] !== true)
    .map(({ placed: { part } }) => candidateOf('switch-on', setEntry(plan, 'switches', part.id, [true]), WEIGHTS.supply));

/** Volts and amps of a supply as it comes, where others are set. */
function supplies({ circuit }: FaultBench): readonly RepairCandidate[] {
  return circuit.supplies.flatMap(({ placed: { part, kind } }) => {
    const changed = kind.params.filter((p) => p.type === 'number' && ['V', 'A'].includes(p.unit)).map((p) => p.name);
    const kept = Object.entries(part.params ?? {}).filter(([name]) => !changed.includes(name));
    if (kept.length === Object.keys(part.params ?? {}).length) return [];
    const after = { ...part, params: Object.fromEntries(kept) };
    return [candidateOf('supply-as-it-comes', { op: 'replace', list: 'parts', before: part, after }, WEIGHTS.supply / 10)];
  });
}

/** A resistor gets the value that the others of this bench have. */
function values(bench: FaultBench): readonly RepairCandidate[] {
  const all = resistorsOf(bench);
  const ohms = (r: (typeof all)[number]) => Number(r.params[r.kind.params[0]?.name ?? '']);
  const counts = new Map<number, number>();
  for (const r of all) counts.set(ohms(r), (counts.get(ohms(r)) ?? 0) + 1);
  const usual = [...counts].filter(([, n]) => n > 1).map(([value]) => value);
  const pulls = new Set(all.filter((r) => isPull(bench, r)));
  const ofPulls = new Set([...pulls].map(ohms));
  const changes = all.flatMap((r) =>
    usual
      .filter((value) => value !== ohms(r) && (counts.get(ohms(r)) ?? 0) === 1)
      .map((value) => {
        const params = { ...r.part.params, [r.kind.params[0]?.name ?? '']: value };
        const change: Change = { op: 'replace', list: 'parts', before: r.part, after: { ...r.part, params } };
        return { change, likely: pulls.has(r) === ofPulls.has(value) ? LIKE_ITS_OWN : 1 };
      }),
  );
  return changes.map(({ change, likely }) => candidateOf('change-value', change, (likely * WEIGHTS.value) / changes.length));
}

/** How far the legs of a small part are bent [pitch]. */
const REACH = 8;

/** A part with both legs on one net: one of them goes to a row near it in which one thing stands alone or a switch is, or to a rail. */
function legs(bench: FaultBench): readonly RepairCandidate[] {
  const { plan, circuit, context, room } = bench;
  const lonely = [...crowding(bench)].filter(([, n]) => n === 1).map(([strip]) => strip);
  const switched = circuit.contacts.flatMap((c) => c.legs).filter((l) => sideOf(bench, l.strip) === undefined);
  const places = [...new Set([...lonely, ...switched.map((l) => l.strip)])];
  const isFree = (name: string) => room.occupant(name) === undefined;
  const changes = onTwoLegs(bench)
    .filter(({ legs: [a, b] }) => a && b && circuit.netOf(a) === circuit.netOf(b))
    .flatMap(({ part }) =>
      (['at', 'to'] as const).flatMap((leg) => {
        const other = readHole(part[leg === 'at' ? 'to' : 'at'] ?? '', plan.boards);
        if (!other.ok) return [];
        const hole = other.value;
        const [x, y] = holeSpot(hole);
        const near = plan.boards.flatMap((board) => [
          ...RAILS.flatMap((rail) => railHoleNear(board, rail, x, (h) => isFree(holeName(h, plan.boards))) ?? []),
          ...rowsOn(bench, places).filter((h) => h.board === board),
        ]);
        return near.flatMap((h) => {
          const [hx, hy] = holeSpot(h);
          if (Math.hypot(hx - x, hy - y) > REACH || stripOf(h) === stripOf(hole)) return [];
          const made = reLeg(context, part.id, leg, holeName(h, plan.boards));
          return made.ok ? [made.value] : [];
        });
      }),
    );
  return changes.map((c) => candidateOf('move-leg', c, SHORTED));
}

/** A free hole in each of these rows. */
function rowsOn({ plan, circuit, room }: FaultBench, strips: readonly string[]) {
  const seen = new Set<string>();
  return [...circuit.layout.legs, ...circuit.layout.ends].flatMap((l) => {
    if (seen.has(l.strip)) return [];
    seen.add(l.strip);
    if (!l.hole || isRailHole(l.hole) || !strips.includes(l.strip)) return [];
    const { hole } = l;
    const free = sameStrip(hole).find((h) => room.occupant(holeName(h, plan.boards)) === undefined);
    return free ? [free] : [];
  });
}
