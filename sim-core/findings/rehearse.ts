/**
 * The check of a plan: a copy of it is switched on, its switches are moved, its buttons are pressed, and what the rules say is put together.
 * Bounded by counts, not by a clock, so that the same plan always gets the same answer.
 */
import type { Plan } from '../../shared/plan.ts';
import type { Outcome } from '../outcome.ts';
import { done } from '../outcome.ts';
import { buildCircuit, type Circuit, type ContactSite } from '../run/circuit.ts';
import type { Simulation } from '../run/face.ts';
import type { Act } from '../run/hands.ts';
import { simulate } from '../run/simulation.ts';
import type { Finding } from './finding.ts';
import { merged, ranked } from './ranking.ts';
import { reachOf } from './reach.ts';
import { logFindings, momentFindings, wiringFindings } from './survey.ts';

/** Up to so many poles that lead to inputs are tried in every combination; the others one by one. */
const MOST_TOGETHER = 8;
/** Buttons beyond so many are not pressed. */
const MOST_BUTTONS = 8;

/** Where a switch stands: part, pole, closed. */
type Setting = ReadonlyMap<ContactSite, boolean>;

/** Ordered as `ranked` says, each finding once with its worst figures; `data.when` names the setting or the press that shows it worst, unless that is the plan as it stands. */
export function rehearse(plan: Plan): Outcome<readonly Finding[]> {
  const first = simulate(switchedOn(plan), { bounce: false, still: true });
  if (!first.ok) return first;
  const sim = first.value;
  const own = [...wiringFindings(sim.circuit), ...momentFindings(sim.circuit, sim.readings())];
  const { findings, ready } = overSettings(sim);
  const pressed = buttonsOf(sim.circuit).flatMap((button) => press(sim.circuit.plan, button, ready));
  return done(ranked(merged([...own, ...findings, ...pressed])));
}

/** Supplies on, buttons let go. */
function switchedOn(plan: Plan): Plan {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return plan;
  const hands = { ...plan.hands };
  for (const s of circuit.value.supplies) hands[s.placed.part.id] = [true];
  for (const b of circuit.value.contacts.filter(isButton)) delete hands[b.placed.part.id];
  return { ...plan, hands };
}

const isButton = (c: ContactSite): boolean => c.contact.momentary;
const buttonsOf = (circuit: Circuit): ContactSite[] => circuit.contacts.filter(isButton).slice(0, MOST_BUTTONS);

/** Findings over the settings of the switches, and the setting nearest to the plan's own in which a memory is ready to be written. */
function overSettings(sim: Simulation): { findings: Finding[]; ready: Setting | undefined } {
  const poles = sim.circuit.contacts.filter((c) => !isButton(c));
  const own: Setting = new Map(poles.map((c) => [c, closedAt(sim.circuit, c)]));
  const toInputs = poles.filter((c) => leadsToInput(sim.circuit, c));
  const together = toInputs.length <= MOST_TOGETHER ? toInputs : [];
  const findings: Finding[] = [];
  let ready: Setting | undefined;
  let nearest = Number.POSITIVE_INFINITY;

  const look = (now: Setting) => {
    const readings = sim.readings();
    const away = poles.filter((c) => now.get(c) !== own.get(c)).length;
    if (away < nearest && readings.chips.some((c) => c.state.doing === 'ready to write')) {
      nearest = away;
      ready = now;
    }
    if (away === 0) return;
    const when = describe(poles, now);
    for (const f of momentFindings(sim.circuit, readings)) findings.push({ ...f, data: { ...f.data, when } });
  };
  const move = (now: Setting, pole: ContactSite, closed: boolean): Setting => {
    sim.act({ do: 'set', part: pole.placed.part.id, pole: pole.pole, closed });
    return new Map(now).set(pole, closed);
  };

  let now = own;
  look(now);
  // Gray code: one pole moves between neighbours, and after the last one the first stands again
  for (let step = 1; step <= 1 << together.length && together.length > 0; step++) {
    const pole = together[Math.min(31 - Math.clz32(step & -step), together.length - 1)];
    if (!pole) break;
    now = move(now, pole, !now.get(pole));
    look(now);
  }
  for (const pole of poles.filter((c) => !together.includes(c))) {
    now = move(now, pole, !now.get(pole));
    look(now);
    now = move(now, pole, !now.get(pole));
  }
  return { findings, ready };
}

const closedAt = (circuit: Circuit, c: ContactSite): boolean => circuit.plan.hands[c.placed.part.id]?.[c.pole] ?? false;

/** Does this pole, through leads and resistance alone, reach a pin that its chip only listens to? */
function leadsToInput(circuit: Circuit, site: ContactSite): boolean {
  const inputs = new Set(
    circuit.chips.flatMap((c) => c.inputs.filter((p) => !c.spec.outputs.includes(p.name)).map((p) => circuit.netOf(p.leg).index)),
  );
  const reach = reachOf(circuit);
  const held = (net: number) => reach.plus.has(net) || reach.minus.has(net) || reach.outputs.has(net);
  return site.legs.some((leg) => {
    const net = circuit.netOf(leg).index;
    return !held(net) && [...reach.from(net, 'no lamps').keys()].some((n) => inputs.has(n) && !held(n));
  });
}

/** 'S1 at 10110, S2 at 1': every switch by its poles, first pole first. */
function describe(poles: readonly ContactSite[], now: Setting): string {
  const byPart = new Map<string, string>();
  for (const c of poles) byPart.set(c.placed.part.id, (byPart.get(c.placed.part.id) ?? '') + (now.get(c) ? '1' : '0'));
  return [...byPart].map(([part, closed]) => `${part} at ${closed}`).join(', ');
}

/** A button pressed and let go in real time, with the switches where a memory can be written if there is such a setting. */
function press(plan: Plan, button: ContactSite, ready: Setting | undefined): Finding[] {
  const hands = { ...plan.hands };
  for (const [c, closed] of ready ?? []) {
    const poles = [...(hands[c.placed.part.id] ?? [])];
    while (poles.length <= c.pole) poles.push(false);
    poles[c.pole] = closed;
    hands[c.placed.part.id] = poles;
  }
  const made = simulate({ ...plan, hands }, { bounce: false });
  if (!made.ok) return [];
  const sim = made.value;
  const id = button.placed.part.id;
  const found: Finding[] = [];
  for (const act of [
    { do: 'press', part: id },
    { do: 'release', part: id },
  ] satisfies Act[]) {
    sim.act(act);
    const when = act.do === 'press' ? `${id} pressed` : `${id} let go`;
    for (const f of momentFindings(sim.circuit, sim.readings())) found.push({ ...f, data: { ...f.data, when } });
  }
  const log = logFindings(sim.circuit, sim.events).map((f) => ({ ...f, data: { ...f.data, when: `${id} pressed` } }));
  return [...found, ...log];
}
