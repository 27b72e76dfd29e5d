/** Where the switches of a bench stand, and the walk over their settings: those that steer in every combination, each of the others by itself. */
import type { Plan } from '../../../shared/plan.ts';
import { compareCounting } from '../../units/text-list.ts';
import type { Simulation } from '../api.ts';
import type { Circuit } from './circuit.ts';
import type { ContactSite } from './sites.ts';

/** closed: true */
export type Setting = ReadonlyMap<ContactSite, boolean>;

/** Up to so many steering poles are tried in every combination; if there are more, each by itself. */
const MOST_TOGETHER = 8;

/** By part as a person counts, then by pole: whatever the order of the file. */
export const contactsInOrder = (contacts: readonly ContactSite[]): ContactSite[] =>
  [...contacts].sort((a, b) => compareCounting(a.placed.part.id, b.placed.part.id) || a.pole - b.pole);

export const isButton = (c: ContactSite): boolean => c.contact.momentary;

/**
 * Calls back at every setting with the bench at rest there, the plan's own first. `away`: how many poles stand otherwise than in the plan.
 * Neighbours differ by one pole (Gray code), and at the end all stands as it stood.
 */
export function walkSettings(
  sim: Simulation,
  steers: (pole: ContactSite) => boolean,
  visit: (setting: Setting, away: number, poles: readonly ContactSite[]) => void,
): void {
  const poles = contactsInOrder(sim.circuit.contacts.filter((c) => !isButton(c)));
  const own: Setting = new Map(poles.map((c) => [c, sim.circuit.plan.switches[c.placed.part.id]?.[c.pole] ?? false]));
  const steering = poles.filter(steers);
  const together = steering.length <= MOST_TOGETHER ? steering : [];
  let now = own;
  const look = () => visit(now, poles.filter((c) => now.get(c) !== own.get(c)).length, poles);
  const move = (pole: ContactSite) => {
    const closed = !now.get(pole);
    sim.act({ do: 'set', part: pole.placed.part.id, pole: pole.pole, closed });
    now = new Map(now).set(pole, closed);
  };
  look();
  for (let step = 1; step <= 1 << together.length && together.length > 0; step++) {
    const pole = together[Math.min(31 - Math.clz32(step & -step), together.length - 1)];
    if (!pole) break;
    move(pole);
    look();
  }
  for (const pole of poles.filter((c) => !together.includes(c))) {
    move(pole);
    look();
    move(pole);
  }
}

/** The plan's switches, with those of the inputs at this setting. */
export function switchesAt(plan: Plan, setting: Setting | undefined): Plan['switches'] {
  const switches = { ...plan.switches };
  for (const [c, closed] of setting ?? []) {
    const poles = [...(switches[c.placed.part.id] ?? [])];
    while (poles.length <= c.pole) poles.push(false);
    poles[c.pole] = closed;
    switches[c.placed.part.id] = poles;
  }
  return switches;
}

/** Supplies on, buttons released. */
export function switchedOn(plan: Plan, circuit: Circuit): Plan {
  const switches = { ...plan.switches };
  for (const s of circuit.supplies) switches[s.placed.part.id] = [true];
  for (const b of circuit.contacts.filter(isButton)) delete switches[b.placed.part.id];
  return { ...plan, switches };
}

/** Ids of supplies that the plan has off. */
export const suppliesOff = (plan: Plan, { supplies }: Circuit): readonly string[] =>
  supplies.map((s) => s.placed.part.id).filter((id) => plan.switches[id]?.[0] !== true);

/** Blocks that these legs' nets belong to; what leans on the supplies alone is in none. */
export function blocksOf(circuit: Circuit, legs: readonly ContactSite['legs'][number][]): Set<number> {
  return new Set(legs.map((leg) => circuit.partition.blockOf(circuit.nodeOf(leg))).filter((block) => block !== -1));
}
