/** Edits that undo a mistake of the catalogue: most kinds are their own inverse, as a wire one row off is moved by one row. */
import { holesApart, isRailHole, readHole, stripOf } from '../board/tie-points.ts';
import type { Change } from '../document/changes.ts';
import { type Fault, faultsOf } from '../faults/fault.ts';
import { type FaultBench, type LaidWire, laidWires } from '../faults/fault-bench.ts';
import { chipOfOtherKind } from '../faults/kinds/chip-of-other-kind.ts';
import { chipRotated } from '../faults/kinds/chip-rotated.ts';
import { chipRowOff } from '../faults/kinds/chip-row-off.ts';
import { displayPolarity } from '../faults/kinds/display-polarity.ts';
import { displayRotated } from '../faults/kinds/display-rotated.ts';
import { displayRowOff } from '../faults/kinds/display-row-off.ts';
import { enableWrongRail } from '../faults/kinds/enable-wrong-rail.ts';
import { ledTurned } from '../faults/kinds/led-reversed.ts';
import { legRowOff } from '../faults/kinds/leg-row-off.ts';
import { legWrongRail } from '../faults/kinds/leg-wrong-rail.ts';
import { powerWireWrongRail } from '../faults/kinds/power-wire-wrong-rail.ts';
import { resistorTenfold } from '../faults/kinds/resistor-tenfold.ts';
import { resistorTenth } from '../faults/kinds/resistor-tenth.ts';
import { supplyTurned } from '../faults/kinds/supply-reversed.ts';
import { supplyWireWrongRail } from '../faults/kinds/supply-wire-wrong-rail.ts';
import { switchRotated } from '../faults/kinds/switch-rotated.ts';
import { switchRowOff } from '../faults/kinds/switch-row-off.ts';
import { wireAcrossTrench } from '../faults/kinds/wire-across-trench.ts';
import { wireMissing } from '../faults/kinds/wire-missing.ts';
import { wireRowOff } from '../faults/kinds/wire-row-off.ts';
import { wireTwoRowsOff } from '../faults/kinds/wire-two-rows-off.ts';
import { wireWrongRail } from '../faults/kinds/wire-wrong-rail.ts';
import { wiresSwapped } from '../faults/kinds/wires-swapped.ts';
import { candidateOf, crowding, type RepairCandidate } from './candidate.ts';

/** Kinds of mistake that are undone by making them a second time; leaving out a wire undoes a wire too many. */
const OWN_INVERSE = [
  wireRowOff,
  wireTwoRowsOff,
  wireAcrossTrench,
  wiresSwapped,
  wireWrongRail,
  enableWrongRail,
  powerWireWrongRail,
  supplyWireWrongRail,
  supplyTurned,
  legRowOff,
  legWrongRail,
  ledTurned,
  switchRowOff,
  switchRotated,
  chipRowOff,
  chipRotated,
  chipOfOtherKind,
  displayRowOff,
  displayRotated,
  displayPolarity,
  resistorTenfold,
  resistorTenth,
  wireMissing,
];

/** An end that stands alone in its row is likely the one that is wrong, so much; our choice. */
const ALONE = 5;
/** And one that would stand alone is not where it was meant to be. */
const WOULD_BE_ALONE = 0.02;
/** Nobody means a wire between rails of unlike marks. */
const UNLIKE_RAILS = 0.01;
/** A wire that somebody laid is seldom one too many. */
const REMOVED = 0.1;

/** A wire between what other wires join all the same has likely strayed from a row near by; our choice. */
const REDUNDANT = 1000;
const STRAYS: ReadonlySet<string> = new Set([wireRowOff, wireTwoRowsOff, wireAcrossTrench].map((k) => k.kind));
/** And rather the one that gets shorter by going back. */
const SHORTER = 2;

export function inverseFaults(bench: FaultBench): readonly RepairCandidate[] {
  const counts = crowding(bench);
  const alone = (point: string, least: number) => {
    const hole = readHole(point, bench.plan.boards);
    return hole.ok && 'row' in hole.value && (counts.get(stripOf(hole.value)) ?? 0) === least;
  };
  const redundant = redundantWires(bench);
  return faultsOf(bench, OWN_INVERSE).map((fault): RepairCandidate => {
    const { kind, change, prior } = fault;
    const moved = movedPoints(change);
    const strayed = STRAYS.has(kind) && fault.things.some((t) => redundant.has(t.id)) ? REDUNDANT * shortened(bench, change) : 1;
    const from = moved.some(([was]) => alone(was, 1)) ? ALONE : 1;
    const to = moved.some(([, is]) => alone(is, 0)) ? WOULD_BE_ALONE : 1;
    return candidateOf(kind, change, prior * from * to * strayed * removed(fault) * (joinsUnlikeRails(change) ? UNLIKE_RAILS : 1));
  });
}

/** Ids of wires with an end in a row of pins whose two ends the other wires join as well. */
function redundantWires(bench: FaultBench): ReadonlySet<string> {
  const wires = laidWires(bench);
  const joined = (without: LaidWire) => {
    const [start, end] = without.ends.map((e) => e.strip);
    const reached = new Set([start]);
    for (let grown = true; grown && !reached.has(end); ) {
      grown = false;
      for (const {
        wire,
        ends: [a, b],
      } of wires) {
        if (wire === without.wire || reached.has(a.strip) === reached.has(b.strip)) continue;
        reached.add(a.strip).add(b.strip);
        grown = true;
      }
    }
    return reached.has(end);
  };
  return new Set(wires.filter((w) => w.ends.some((e) => e.hole && !isRailHole(e.hole)) && joined(w)).map((w) => w.wire.id));
}

/** Is the wire shorter after this change? */
function shortened({ plan: { boards } }: FaultBench, change: Change): number {
  if (change.op !== 'replace' || change.list !== 'wires') return 1;
  const [before, after] = [change.before, change.after].map(({ from, to }) => {
    const [a, b] = [readHole(from, boards), readHole(to, boards)];
    return a.ok && b.ok ? holesApart(a.value, b.value) : 0;
  }) as [number, number];
  return after < before ? SHORTER : 1;
}

function joinsUnlikeRails(change: Change): boolean {
  if (change.op !== 'replace' || change.list !== 'wires') return false;
  const [a, b] = [change.after.from, change.after.to].map((point) => /^(?:\w+:)?([+-])/.exec(point)?.[1]);
  return a !== undefined && b !== undefined && a !== b;
}

const removed = ({ kind }: Fault): number => (kind === wireMissing.kind ? REMOVED : 1);

/** From where to where ends and legs go, two of one change aside. */
function movedPoints(change: Change): readonly (readonly [was: string, is: string])[] {
  if (change.op !== 'replace') return [];
  const { before, after } = change;
  const points = (item: object) => Object.entries(item).filter(([name]) => ['from', 'to', 'at'].includes(name));
  const is = new Map(points(after));
  // a part with rows of legs goes as a whole
  if (!('from' in before) && !('to' in before)) return [];
  return points(before).flatMap(([name, was]) => (is.get(name) === was ? [] : [[String(was), String(is.get(name))] as const]));
}
