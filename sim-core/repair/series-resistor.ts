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
import type { Ref } from '../sentence/ref.ts';
import type { Curing, FixContext, FixRule } from './fix.ts';
import { between, emptyRows } from './free-holes.ts';

const FIGURE = 'ohms';

/** The LED is what the finding names first, or, of an overloaded pin, last. */
export const limitLed: Curing = (about) => forLed(about, about.finding.at[0], about.finding.data.cure);
export const limitLedOfPin: Curing = (about) =>
  about.finding.at.length === 2 ? forLed(about, about.finding.at[1], about.finding.data.cure) : [];

function forLed(about: FixContext, what: Ref | undefined, cure: number | string | undefined): readonly FixRule[] {
  const site = about.circuit.leds.find((l) => l.id === what?.id);
  const ohms = Number(cure);
  if (!what || !site || !(ohms > 0)) return [];
  const legs = [site.cathode, site.anode];
  const own = legs.map((leg) => soleResistor(about, leg)).find((r) => r !== undefined);
  if (own) {
    const change = setParams(about.ground, own.id, { [FIGURE]: ohms });
    return change.ok ? [{ deed: { does: 'exchange', what: { kind: 'part', id: own.id }, ohms }, change: change.value }] : [];
  }
  for (const leg of legs) {
    const change = parted(about, leg, ohms);
    if (change) return [{ deed: { does: 'in-series', what, ohms }, change }];
  }
  return [];
}

/** The one resistor on a net where nothing else is but the LED's leg. */
function soleResistor({ circuit }: FixContext, leg: Leg): PlanPart | undefined {
  const others = circuit.netOf(leg).legs.filter((l) => l.part !== leg.part);
  const [only] = others;
  return only && others.length === 1 && only.part.kind === resistor.id ? only.part : undefined;
}

/** What joins the LED's leg to the rest goes to an empty row, and the resistor spans the gap: the one wire of its row, or else the leg itself. */
function parted(about: FixContext, leg: Leg, ohms: number): Change | undefined {
  const { circuit, ground } = about;
  const { hole } = leg;
  if (!hole) return undefined;
  const ends = ground.layout.ends.filter((e) => e.strip === leg.strip);
  const legs = ground.layout.legs.filter((l) => l.strip === leg.strip);
  const [end] = ends;
  const wire = legs.length === 1 && ends.length === 1 && end ? end.wire : undefined;
  const from = wire && end?.hole ? end.hole : hole;
  for (const row of emptyRows(about, from)) {
    const to = holeName(row, circuit.plan.boards);
    const away = wire && end ? reEnd(ground, wire.id, end.end, to) : reLegged(about, leg, to);
    const change = away?.ok ? bridged(about, away.value, from, row, ohms) : undefined;
    if (change) return change;
  }
  return undefined;
}

function reLegged({ ground, circuit }: FixContext, { part, hole }: Leg, to: string): Outcome<Change> | undefined {
  if (part.to === undefined || !hole) return undefined;
  return reLeg(ground, part.id, part.at === holeName(hole, circuit.plan.boards) ? 'at' : 'to', to);
}

function bridged(about: FixContext, away: Change, from: Hole, row: Hole, ohms: number): Change | undefined {
  const ground = editContext(apply(about.ground.plan, away), about.ground.kinds);
  if (!ground.ok) return undefined;
  const after: FixContext = { ...about, ground: ground.value };
  for (const to of sameStrip(row)) {
    const bridge = between(after, resistor.id, { ohms }, [from, to]);
    if (bridge) return join(away, bridge);
  }
  return undefined;
}
