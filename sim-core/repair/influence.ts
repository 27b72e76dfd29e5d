/** What can move an LED: the nets behind it, back through resistance, contacts and whatever drives; and the nets that an edit touches. */

import type { Plan, PlanPart } from '../../shared/plan.ts';
import { holesOfPart } from '../board/layout.ts';
import { readHole, stripOf } from '../board/tie-points.ts';
import type { Change } from '../document/changes.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { shapeOf } from '../parts/footprint-index.ts';
import type { Circuit } from '../run/circuit/circuit.ts';

/** Nets by index, rails left out: every LED hangs on them. */
export type NetSet = ReadonlySet<number>;

/** For each LED the nets from which it can be moved; of one that is not on the bench, none. */
export class Influence {
  private readonly rails: NetSet;
  /** net → nets that it is joined to by something that lets current through */
  private readonly beside: readonly number[][];
  /** net → nets that whatever drives it listens to, or is fed by */
  private readonly behind: readonly number[][];
  /** net → rows of inputs of its driver that lie on a rail, with those that wires join to them: an edit there takes them off it */
  private readonly tied: readonly string[][];
  private readonly found = new Map<string, NetSet>();
  private readonly tiedBehind = new Map<string, ReadonlySet<string>>();

  constructor(private readonly circuit: Circuit) {
    const { plus, minus } = reachOf(circuit);
    this.rails = new Set([...plus, ...minus]);
    const net = (leg: Parameters<Circuit['netOf']>[0]) => circuit.netOf(leg).index;
    const chips = new Set(circuit.chips.map((c) => c.placed));
    this.beside = circuit.nets.all.map(() => []);
    this.behind = circuit.nets.all.map(() => []);
    this.tied = circuit.nets.all.map(() => []);
    for (const { placed, legs } of circuit.branches) {
      if (chips.has(placed)) continue;
      const [a, b] = legs.map(net) as [number, number];
      this.beside[a]?.push(b);
      this.beside[b]?.push(a);
    }
    for (const { spec, inputs, outputs, supply, ground } of circuit.chips)
      for (const [o, output] of outputs.entries())
        this.behind[net(output.leg)]?.push(
          net(supply.leg),
          net(ground.leg),
          ...inputs.filter((_, i) => spec.moves?.[i]?.includes(o) ?? true).map((i) => net(i.leg)),
        );
    for (const { inputs, outputs } of circuit.chips) {
      const strips = inputs.filter((i) => this.rails.has(net(i.leg))).flatMap((i) => [...rowsJoined(circuit, i.leg.strip)]);
      for (const output of outputs) this.tied[net(output.leg)]?.push(...strips);
    }
  }

  /** 'LED3', 'DS1.a' */
  of(led: string): NetSet {
    const known = this.found.get(led) ?? this.find(led);
    this.found.set(led, known);
    return known;
  }

  /** Rows of inputs on a rail that this LED depends on. */
  rowsTied(led: string): ReadonlySet<string> {
    const known = this.tiedBehind.get(led) ?? new Set([...this.of(led)].flatMap((n) => this.tied[n] ?? []));
    this.tiedBehind.set(led, known);
    return known;
  }

  isRail(net: number): boolean {
    return this.rails.has(net);
  }

  private find(led: string): NetSet {
    const { circuit } = this;
    const site = circuit.leds.find((l) => l.id === led);
    const legs = site ? [site.anode, site.cathode] : circuit.layout.legs.filter((l) => l.part.id === led.split('.')[0]);
    const waiting = legs.map((l) => circuit.netOf(l).index);
    const reached = new Set<number>();
    for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
      if (reached.has(here) || this.rails.has(here)) continue;
      reached.add(here);
      waiting.push(...(this.beside[here] ?? []), ...(this.behind[here] ?? []));
    }
    return reached;
  }
}

/** The row and all others that wires join to it, rails left out. */
function rowsJoined({ layout: { ends } }: Circuit, strip: string): ReadonlySet<string> {
  const reached = new Set<string>();
  const waiting = [strip];
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    if (reached.has(here) || /\/[+-]/.test(here)) continue;
    reached.add(here);
    for (const e of ends) if (e.strip === here) waiting.push(...ends.filter((x) => x.wire === e.wire && x !== e).map((x) => x.strip));
  }
  return reached;
}

/** What an edit changes of the metal: nets, rails left out, and rows. */
export interface Touched {
  readonly nets: NetSet;
  readonly rows: readonly string[];
}

/** undefined where it changes more than metal, or rails alone. */
export function touchedBy(circuit: Circuit, influence: Influence, change: Change): Touched | undefined {
  const rows = stripsTouched(circuit.plan, change);
  if (!rows) return undefined;
  const nets = rows.flatMap((s) => circuit.nets.ofStrip.get(s)?.index ?? []);
  const others = nets.filter((n) => !influence.isRail(n));
  return others.length > 0 ? { nets: new Set(others), rows } : undefined;
}

function stripsTouched(plan: Plan, change: Change): readonly string[] | undefined {
  if (change.op === 'all') {
    const all = change.changes.map((c) => stripsTouched(plan, c));
    return all.some((s) => s === undefined) ? undefined : all.flatMap((s) => s ?? []);
  }
  if (change.op === 'set' || change.op === 'set-rows' || change.list === 'boards') return undefined;
  const items = change.op === 'replace' ? [change.before, change.after] : [change.item];
  return items.flatMap((item) => {
    if ('from' in item) return [item.from, item.to].flatMap((point) => stripAt(plan, point));
    return 'kind' in item && 'id' in item && !('splitRails' in item) ? stripsOfPart(plan, item as PlanPart) : [];
  });
}

function stripAt({ boards }: Plan, point: string): readonly string[] {
  if (point.includes('.')) return [point];
  const hole = readHole(point, boards);
  return hole.ok ? [stripOf(hole.value)] : [];
}

function stripsOfPart({ boards }: Plan, part: PlanPart): readonly string[] {
  const shape = shapeOf(part);
  if (!shape.ok) return [];
  const { footprint, pins } = shape.value;
  if (footprint.shape === 'off-board') return pins.map((pin) => `${part.id}.${pin}`);
  const holes = holesOfPart(boards, part, footprint, part.id);
  return holes.ok ? holes.value.map(stripOf) : [];
}
