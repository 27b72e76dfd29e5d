/** An LED with too little in its path: a larger resistor in the place of the one it has, or a new one between one of its legs and what that was in. */

import type { Outcome } from '../../shared/outcome.ts';
import type { PlanPart } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import { type Hole, holeName, sameStrip } from '../board/tie-points.ts';
import { apply, type Change, join } from '../document/changes.ts';
import { editContext } from '../document/edits/edit-context.ts';
import { reLeg, setParams } from '../document/edits/properties.ts';
import { reEnd } from '../document/edits/wires.ts';
import { resistor } from '../parts/resistor.ts';
import { inOhms, type Ref, say } from '../sentence/wording.ts';
import type { Fix, FixBench } from './fix.ts';
import { between, emptyRows } from './free-holes.ts';

const FIGURE = 'ohms';

/** The LED's own resistor gets so many ohms, or a new one comes in series. */
export function limitCurrent(bench: FixBench, led: Ref, ohms: number): readonly Fix[] {
  const site = bench.circuit.leds.find((l) => l.id === led.id);
  if (!site) return [];
  const legs = [site.cathode, site.anode];
  const own = legs.map((leg) => soleResistor(bench, leg)).find((r) => r !== undefined);
  if (own) {
    const change = setParams(bench.context, own.id, { [FIGURE]: ohms });
    return change.ok ? [{ says: say`Set ${{ kind: 'part', id: own.id }} to ${inOhms(ohms)}`, change: change.value }] : [];
  }
  for (const leg of legs) {
    const change = parted(bench, leg, ohms);
    if (change) return [{ says: say`Add ${inOhms(ohms)} in series with ${led}`, change }];
  }
  return [];
}

/** The one resistor on a net where nothing else is but the LED's leg. */
function soleResistor({ circuit }: FixBench, leg: Leg): PlanPart | undefined {
  const others = circuit.netOf(leg).legs.filter((l) => l.part !== leg.part);
  const [only] = others;
  return only && others.length === 1 && only.part.kind === resistor.id ? only.part : undefined;
}

/** What joins the LED's leg to the rest goes to an empty row, and the resistor spans the gap: the one wire of its row, or else the leg itself. */
function parted(bench: FixBench, leg: Leg, ohms: number): Change | undefined {
  const { circuit, context } = bench;
  const { hole } = leg;
  if (!hole) return undefined;
  const ends = context.layout.ends.filter((e) => e.strip === leg.strip);
  const legs = context.layout.legs.filter((l) => l.strip === leg.strip);
  const [end] = ends;
  const wire = legs.length === 1 && ends.length === 1 && end ? end.wire : undefined;
  const from = wire && end?.hole ? end.hole : hole;
  for (const row of emptyRows(bench, from)) {
    const to = holeName(row, circuit.plan.boards);
    const away = wire && end ? reEnd(context, wire.id, end.end, to) : reLegged(bench, leg, to);
    const change = away?.ok ? bridged(bench, away.value, from, row, ohms) : undefined;
    if (change) return change;
  }
  return undefined;
}

function reLegged({ context, circuit }: FixBench, { part, hole }: Leg, to: string): Outcome<Change> | undefined {
  if (part.to === undefined || !hole) return undefined;
  return reLeg(context, part.id, part.at === holeName(hole, circuit.plan.boards) ? 'at' : 'to', to);
}

function bridged(bench: FixBench, away: Change, from: Hole, row: Hole, ohms: number): Change | undefined {
  const after = editContext(apply(bench.context.plan, away), bench.context.kinds);
  if (!after.ok) return undefined;
  for (const to of sameStrip(row)) {
    const bridge = between({ ...bench, context: after.value }, resistor.id, { ohms }, [from, to]);
    if (bridge) return join(away, bridge);
  }
  return undefined;
}
