/** A lamp with too little in its path: a larger resistor in the place of the one it has, or a new one between one of its legs and what that was in. */
import type { PlanPart } from '../../shared/plan.ts';
import { apply, type Change, join } from '../bench/changes.ts';
import { groundOf } from '../bench/edits/ground.ts';
import { reEnd } from '../bench/edits/leads.ts';
import { reLeg, setParams } from '../bench/edits/settings.ts';
import type { Leg } from '../bench/layout.ts';
import { type Hole, holeName, sameStrip } from '../bench/points.ts';
import type { Ref } from '../findings/finding.ts';
import type { Outcome } from '../outcome.ts';
import { resistor } from '../parts/resistor.ts';
import type { Case, Cure, Curing } from './cure.ts';
import { between, emptyRows } from './places.ts';

const FIGURE = 'ohms';

/** The lamp is what the finding names first, or, of an overloaded pin, last. */
export const limitLamp: Curing = (about) => forLamp(about, about.finding.at[0], about.finding.data.cure);
export const limitLampOfPin: Curing = (about) =>
  about.finding.at.length === 2 ? forLamp(about, about.finding.at[1], about.finding.data.cure) : [];

function forLamp(about: Case, what: Ref | undefined, cure: number | string | undefined): readonly Cure[] {
  const site = about.circuit.lamps.find((l) => l.id === what?.id);
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

/** The one resistor on a net where nothing else is but the lamp's leg. */
function soleResistor({ circuit }: Case, leg: Leg): PlanPart | undefined {
  const others = circuit.netOf(leg).legs.filter((l) => l.part !== leg.part);
  const [only] = others;
  return only && others.length === 1 && only.part.kind === resistor.id ? only.part : undefined;
}

/** What joins the lamp's leg to the rest goes to an empty row, and the resistor spans the gap: the one lead of its row, or else the leg itself. */
function parted(about: Case, leg: Leg, ohms: number): Change | undefined {
  const { circuit, ground } = about;
  const { hole } = leg;
  if (!hole) return undefined;
  const ends = ground.layout.ends.filter((e) => e.strip === leg.strip);
  const legs = ground.layout.legs.filter((l) => l.strip === leg.strip);
  const [end] = ends;
  const wire = legs.length === 1 && ends.length === 1 && end ? end.lead : undefined;
  const from = wire && end?.hole ? end.hole : hole;
  for (const row of emptyRows(about, from)) {
    const to = holeName(row, circuit.plan.boards);
    const away = wire && end ? reEnd(ground, wire.id, end.end, to) : reLegged(about, leg, to);
    const change = away?.ok ? bridged(about, away.value, from, row, ohms) : undefined;
    if (change) return change;
  }
  return undefined;
}

function reLegged({ ground, circuit }: Case, { part, hole }: Leg, to: string): Outcome<Change> | undefined {
  if (part.to === undefined || !hole) return undefined;
  return reLeg(ground, part.id, part.at === holeName(hole, circuit.plan.boards) ? 'at' : 'to', to);
}

function bridged(about: Case, away: Change, from: Hole, row: Hole, ohms: number): Change | undefined {
  const ground = groundOf(apply(about.ground.plan, away), about.ground.kinds);
  if (!ground.ok) return undefined;
  const after: Case = { ...about, ground: ground.value };
  for (const to of sameStrip(row)) {
    const bridge = between(after, resistor.id, { ohms }, [from, to]);
    if (bridge) return join(away, bridge);
  }
  return undefined;
}
