/** Edits that add what may be missing: a wire between two nets of which one has nothing to go to, a resistor that holds an input or limits an LED. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { type Hole, holeName, holesOf, isRailHole, nearestPair, stripAt, stripOf } from '../board/tie-points.ts';
import type { Change } from '../document/changes.ts';
import { addWire } from '../document/edits/wires.ts';
import { type FaultBench, isPull, onTwoLegs, pinOf, resistorsOf, sideOf } from '../faults/fault-bench.ts';
import { between } from '../fixes/free-holes.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { candidateOf, crowding, type RepairCandidate } from './candidate.ts';

/** What stands on a net, as far as a missing connection is concerned. */
interface NetRole {
  readonly index: number;
  readonly rail: 'plus' | 'minus' | undefined;
  readonly hasOutput: boolean;
  /** a rail, whether a supply is on it or not */
  readonly isRail: boolean;
  /** an output that its chip's inputs cannot move */
  readonly idle: boolean;
  readonly hasContact: boolean;
  readonly hasInput: boolean;
  readonly hasLed: boolean;
  /** of a chip: 'supply' or 'ground' */
  readonly feeds: 'plus' | 'minus' | undefined;
  /** holes in which something new finds room; or the terminal's name */
  readonly holes: readonly Hole[];
  readonly terminal: string | undefined;
  /** one leg, and nothing else on its net */
  readonly isAlone: boolean;
  /** one leg alone, or metal that nothing drives */
  readonly lost: boolean;
}

/** Together as likely as all wires that may be missing; and so much likelier where both sides lack something, or a supply pin its rail. */
const WIRES = 14;
const BOTH_LOST = 10;
const OWN_RAIL = 10;
const RESISTORS = 6;
/** Nobody wires to a row in which a wire's end stands alone, nor from one lone leg to another in the next row: the end, or the leg, is moved. */
const STRAY_END = 0.05;
/** An LED seldom goes to a rail or an output without its resistor. */
const BARE_LED = 0.1;
const LEDS = 20;

export function additions(bench: FaultBench): readonly RepairCandidate[] {
  const roles = netRoles(bench);
  const pairs = roles
    .filter((a) => a.lost)
    .flatMap((a) => roles.filter((b) => fits(a, b) && !(b.lost && b.index < a.index && fits(b, a))).map((b) => [a, b] as const));
  const wires = pairs.flatMap(([a, b]) => {
    const change = wireBetween(bench, a, b);
    const weight = a.lost && b.lost ? BOTH_LOST : a.feeds !== undefined && a.feeds === b.rail ? OWN_RAIL : 1;
    const bare = a.hasLed && !a.hasOutput && (b.rail !== undefined || b.hasOutput) ? BARE_LED : 1;
    const stray = change && (endsBesideNothing(bench, change) || (a.isAlone && b.isAlone && areNeighbours(bench, change))) ? STRAY_END : 1;
    return change ? [candidateOf('add-wire', change, (weight * bare * stray * WIRES) / pairs.length)] : [];
  });
  return [...wires, ...resistorsAdded(bench, roles), ...ledsAdded(bench, roles)];
}

function endsBesideNothing({ circuit, plan }: FaultBench, change: Change): boolean {
  if (change.op !== 'insert' || change.list !== 'wires') return false;
  return [change.item.from, change.item.to].some((point) => {
    const strip = stripAt(point, plan.boards);
    const isMetal = (e: { readonly strip: string }) => e.strip === strip;
    return /\/\d/.test(strip) && !circuit.layout.legs.some(isMetal) && circuit.layout.ends.filter(isMetal).length === 1;
  });
}

/** Rows side by side, or with one between them. */
function areNeighbours({ plan }: FaultBench, change: Change): boolean {
  if (change.op !== 'insert' || change.list !== 'wires') return false;
  const [a, b] = [change.item.from, change.item.to].map((p) => /^(.*\/)(\d+)([af])$/.exec(stripAt(p, plan.boards)));
  return a !== null && b !== null && a?.[1] === b?.[1] && a?.[3] === b?.[3] && Math.abs(Number(a?.[2]) - Number(b?.[2])) <= 2;
}

/** May a net that lacks something have it from this one? */
function fits(a: NetRole, b: NetRole): boolean {
  if (a.index === b.index || a.idle || b.idle || isOutputOnRail(a, b) || isOutputOnRail(b, a) || (a.rail && b.rail && a.rail !== b.rail))
    return false;
  if (a.feeds) return b.rail === a.feeds;
  if (a.rail) return b.lost && b.rail === undefined && !b.hasOutput;
  if (a.hasOutput) return b.rail === undefined && !b.hasOutput && (b.hasInput || b.hasLed || b.lost);
  if (a.hasInput) return b.rail !== undefined || b.hasOutput || b.hasContact;
  if (a.hasContact) return b.rail !== undefined || (b.hasInput && !b.hasOutput);
  return b.rail !== undefined || b.hasOutput || b.lost || b.hasContact;
}

/** Nobody feeds a rail from a chip's output. */
const isOutputOnRail = (a: NetRole, b: NetRole): boolean => a.hasOutput && b.isRail;

function netRoles(bench: FaultBench): readonly NetRole[] {
  const { circuit, plan, room } = bench;
  const counts = crowding(bench);
  const free = new Map<string, Hole[]>();
  for (const hole of plan.boards.flatMap(holesOf)) {
    if (room.occupant(holeName(hole, plan.boards)) !== undefined) continue;
    const strip = stripOf(hole);
    const holes = free.get(strip);
    if (holes) holes.push(hole);
    else free.set(strip, [hole]);
  }
  const on = netsOf(circuit);
  const idle = idleOutputs(bench);
  const resistors = new Set(resistorsOf(bench).map((r) => r.part.id));
  // an LED and its resistor need nothing else between them
  const isInSeries = ({ index, legs, ends }: Net) =>
    on.leds.has(index) && legs.length === 2 && ends.length === 0 && legs.some((l) => resistors.has(l.part.id));
  return circuit.nets.all.map((net): NetRole => {
    const { index, strips, legs, ends } = net;
    const rail = sideOf(bench, strips[0] ?? '');
    const roles = legs.map((l) => pinOf(circuit, l)?.role);
    const isChip = (l: Leg) => circuit.chipById.has(l.part.id);
    const feeds = legs.some((l, i) => isChip(l) && roles[i] === 'supply')
      ? 'plus'
      : legs.some((l, i) => isChip(l) && roles[i] === 'ground')
        ? 'minus'
        : undefined;
    const terminal = legs.find((l) => !l.hole)?.strip;
    const alone = legs.length === 1 && ends.length === 0;
    const driven = on.outputs.has(index) || on.contacts.has(index);
    const single = strips.length === 1 && (counts.get(strips[0] ?? '') ?? 0) === 1;
    return {
      index,
      rail,
      hasOutput: on.outputs.has(index),
      idle: idle.has(index),
      isRail: isOnRail(strips),
      isAlone: alone && single,
      hasContact: on.contacts.has(index),
      hasInput: on.inputs.has(index),
      hasLed: on.leds.has(index),
      feeds: rail === undefined ? feeds : undefined,
      holes: railsFirst(strips.flatMap((s) => free.get(s) ?? [])),
      terminal,
      lost:
        rail === undefined
          ? (alone && single) ||
            isOnRail(strips) ||
            (!driven && !isInSeries(net) && (on.inputs.has(index) || feeds !== undefined || legs.length + ends.length > 1))
          : terminal !== undefined && ends.length === 0,
    };
  });
}

const isOnRail = (strips: readonly string[]): boolean => strips.some((s) => s.includes('/+') || s.includes('/-'));

/** Of metal that is a rail too, the rail's holes: nobody plugs a supply into the row of a pin. */
function railsFirst(holes: readonly Hole[]): readonly Hole[] {
  const rails = holes.filter(isRailHole);
  return rails.length > 0 ? rails : holes;
}

/** Outputs that nothing can move: all inputs that they answer are on a rail, as those of a gate that is not used. */
function idleOutputs(bench: FaultBench): ReadonlySet<number> {
  const { circuit } = bench;
  const onRail = (leg: Leg) => sideOf(bench, leg.strip) !== undefined;
  return new Set(
    circuit.chips.flatMap(({ spec: { moves }, inputs, outputs }) =>
      outputs.flatMap((output, o) =>
        moves && inputs.every((input, i) => !moves[i]?.includes(o) || onRail(input.leg)) ? [circuit.netOf(output.leg).index] : [],
      ),
    ),
  );
}

function netsOf(circuit: Circuit) {
  const net = (leg: Leg) => circuit.netOf(leg).index;
  return {
    outputs: new Set(circuit.chips.flatMap((c) => c.outputs.map((o) => net(o.leg)))),
    inputs: new Set(circuit.chips.flatMap((c) => c.inputs.filter((i) => !c.spec.outputs.includes(i.name)).map((i) => net(i.leg)))),
    contacts: new Set(circuit.contacts.flatMap((c) => c.legs.map(net))),
    leds: new Set(circuit.leds.flatMap((l) => [net(l.anode), net(l.cathode)])),
  };
}

function wireBetween({ context, plan }: FaultBench, a: NetRole, b: NetRole): Change | undefined {
  const pair = a.holes.length > 0 && b.holes.length > 0 ? nearestPair(a.holes, b.holes) : undefined;
  const name = (hole: Hole | undefined) => hole && holeName(hole, plan.boards);
  const from = pair ? name(pair[0]) : (a.terminal ?? name(a.holes[0]));
  const to = pair ? name(pair[1]) : (b.terminal ?? name(b.holes[0]));
  if (from === undefined || to === undefined) return undefined;
  const side = a.rail ?? b.rail ?? a.feeds;
  const made = addWire(context, from, to, side === 'plus' ? 'red' : side === 'minus' ? 'black' : 'green');
  return made.ok ? made.value : undefined;
}

/** The value that most of these have. */
function usual(values: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]?.[0];
}

/** Resistors of the values that this bench has: from an input to the rail that the others are pulled to, and in series with an LED. */
function resistorsAdded(bench: FaultBench, roles: readonly NetRole[]): readonly RepairCandidate[] {
  const { circuit } = bench;
  const all = resistorsOf(bench);
  const ohmsOf = (r: (typeof all)[number]) => Number(Object.values(r.params)[0]);
  const pulls = all.filter((r) => isPull(bench, r));
  const held = new Set(pulls.flatMap((r) => r.legs.map((l) => circuit.netOf(l).index)));
  const down = pulls.filter((r) => r.legs.some((l) => sideOf(bench, l.strip) === 'minus')).length * 2 >= pulls.length;
  const rails = roles.filter((r) => r.rail !== undefined && r.holes.length > 0);
  const own = rails.filter((r) => (r.rail === 'minus') === down);
  const open = roles.filter((r) => r.rail === undefined && r.hasInput && r.hasContact && !held.has(r.index));
  const limits = all.filter((r) => !pulls.includes(r));
  const ends = roles.filter((r) => r.rail === undefined && (r.lost || isAlone(bench, r)));
  const kind = all[0]?.kind.id;
  const [pullOhms, seriesOhms] = [usual(pulls.map(ohmsOf)), usual(limits.map(ohmsOf))];
  const made = (pairs: readonly (readonly [NetRole, NetRole])[], ohms: number | undefined): Change[] =>
    kind === undefined || ohms === undefined
      ? []
      : pairs.flatMap(([a, b]) => {
          const holes = nearestPair(a.holes, b.holes);
          const change = holes && between({ circuit, context: bench.context }, kind, { ohms }, holes);
          return change ? [change] : [];
        });
  const lights = ends.filter((r) => r.hasLed);
  const series = lights.flatMap((a) =>
    [...rails, ...ends].filter((b) => b !== a && !(b.hasLed && b.index < a.index)).map((b) => [a, b] as const),
  );
  const changes = [
    ...made(
      open.flatMap((a) => own.map((b) => [a, b] as const)),
      pullOhms,
    ),
    ...made(series, seriesOhms),
  ];
  // one that stands with a leg alone has strayed: none is missing
  const counts = crowding(bench);
  const strayed = onTwoLegs(bench).some((r) => r.legs.some((l) => counts.get(l.strip) === 1)) ? STRAY_END : 1;
  return changes.map((change) => candidateOf('add-resistor', change, (strayed * RESISTORS) / changes.length));
}

/** An LED that the table names and that is gone, between two rows in which something has nothing to go to. */
function ledsAdded(bench: FaultBench, roles: readonly NetRole[]): readonly RepairCandidate[] {
  const { circuit, plan } = bench;
  const like = circuit.leds.find((l) => l.led.name === '')?.placed.part;
  const missing = (plan.wanted?.outputs ?? []).flatMap(({ led, name }) =>
    led !== undefined && !led.includes('.') && !plan.parts.some((p) => p.id === led) ? [{ id: led, name }] : [],
  );
  if (!like) return [];
  const ends = roles.filter((r) => r.rail === undefined && isAlone(bench, r));
  const places = [...ends, ...roles.filter((r) => r.rail !== undefined)];
  return missing.flatMap(({ id, name }) => {
    const changes = ends.flatMap((a) =>
      places
        .filter((b) => b !== a)
        .flatMap((b) => [
          [a, b],
          [b, a],
        ])
        .flatMap(([from, to]): Change[] => {
          const pair = from && to && nearestPair(from.holes, to.holes);
          const made = pair && between({ circuit, context: bench.context }, like.kind, like.params ?? {}, pair);
          if (made?.op !== 'insert' || made.list !== 'parts') return [];
          return [{ ...made, item: { ...made.item, id, label: name } }];
        }),
    );
    return changes.map((change) => candidateOf('add-led', change, LEDS / changes.length));
  });
}

/** Does a wire's end, or a leg, stand alone somewhere on this net? */
function isAlone(bench: FaultBench, { index }: NetRole): boolean {
  const counts = crowding(bench);
  return bench.circuit.nets.all[index]?.strips.some((s) => counts.get(s) === 1) ?? false;
}
