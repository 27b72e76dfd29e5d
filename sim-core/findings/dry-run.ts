/**
 * The check of a plan: a copy of it is switched on, its switches are moved, its buttons are pressed, and what the rules say is put together.
 * Bounded by counts, not by a clock, so that the same plan always gets the same answer.
 */

import type { Outcome } from '../../shared/outcome.ts';
import { done } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Simulation } from '../run/api.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { ContactSite } from '../run/circuit/sites.ts';
import {
  contactsInOrder,
  isButton,
  type Setting,
  suppliesOff,
  switchedOn,
  switchesAt,
  walkSettings,
} from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { allTurns } from '../run/slices.ts';
import { type LitLog, makeLitLog, marginalsOf } from '../tolerance/marginal.ts';
import { calm } from './calm.ts';
import type { Finding } from './finding.ts';
import { pressButton } from './press.ts';
import { reachOf } from './resistive-reach.ts';
import {
  logFindings,
  marginalFindings,
  momentFindings,
  pressFindings,
  storedFindings,
  tableFindings,
  wiringFindings,
} from './run-rules.ts';
import { tryTable } from './table-check.ts';

/** Buttons beyond so many are not pressed. */
const MOST_BUTTONS = 8;

/**
 * Ordered as `calm` says, each finding once with its worst figures; `when` names the setting or the press that shows it worst, unless that is the plan as it stands.
 * Fails with `plan/…`.
 */
export function dryRun(plan: Plan): Outcome<readonly Finding[]> {
  const checked = checkBench(plan);
  return checked.ok ? done(checked.value.findings) : checked;
}

/** What a check of a plan found, and how much of its table it tried. */
export interface BenchCheck {
  readonly findings: readonly Finding[];
  /** of the plan's table, where its rows can be gone through: so many of so many were tried */
  readonly rows?: { readonly tried: number; readonly of: number };
  /** supplies that the plan has off: all of this was tried with them on */
  readonly off?: readonly string[];
}

/** The same, and how much of the table was tried. Fails with `plan/…`. */
export function checkBench(plan: Plan): Outcome<BenchCheck> {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return circuit;
  const first = simulate(switchedOn(plan, circuit.value), { bounce: false, still: true });
  if (!first.ok) return first;
  const sim = first.value;
  const own = [
    ...wiringFindings(sim.circuit),
    ...momentFindings(sim.circuit, sim.readings()),
    ...storedFindings(sim.circuit, plan.memories),
  ];
  const { findings, ready, lit } = overSettings(sim);
  const pressed = buttonsOf(sim.circuit).flatMap((button) => press(sim.circuit.plan, button, ready));
  const marginal = marginalFindings(marginalsOf(sim.circuit.plan, sim.circuit, lit, ready));
  const trial = allTurns(tryTable(sim.circuit, sim.circuit.plan));
  const off = suppliesOff(plan, sim.circuit);
  const all = [...own, ...(trial ? tableFindings(trial) : []), ...findings, ...pressed, ...marginal];
  return done({
    findings: calm(sim.circuit, all),
    ...(trial && 'tried' in trial ? { rows: { tried: trial.tried, of: trial.rows } } : {}),
    ...(off.length > 0 ? { off } : {}),
  });
}

const buttonsOf = (circuit: Circuit): ContactSite[] => contactsInOrder(circuit.contacts.filter(isButton)).slice(0, MOST_BUTTONS);

/** Findings over the settings of the switches, and the setting nearest to the plan's own in which a memory is ready to be written. */
function overSettings(sim: Simulation): { findings: Finding[]; ready: Setting | undefined; lit: LitLog } {
  const findings: Finding[] = [];
  const lit = makeLitLog();
  let ready: Setting | undefined;
  let nearest = Number.POSITIVE_INFINITY;
  walkSettings(
    sim,
    (c) => wiresToInput(sim.circuit, c),
    (now, away, poles) => {
      const readings = sim.readings();
      lit.note(now, away, readings);
      if (away < nearest && readings.chips.some((c) => c.state.doing === 'ready to write')) {
        nearest = away;
        ready = now;
      }
      if (away === 0) return;
      const when = describe(poles, now);
      for (const f of momentFindings(sim.circuit, readings)) findings.push({ ...f, when });
    },
  );
  return { findings, ready, lit };
}

/** Does this pole, through wires and resistance alone, reach a pin that its chip only listens to? */
function wiresToInput(circuit: Circuit, site: ContactSite): boolean {
  const inputs = new Set(
    circuit.chips.flatMap((c) => c.inputs.filter((p) => !c.spec.outputs.includes(p.name)).map((p) => circuit.netOf(p.leg).index)),
  );
  const reach = reachOf(circuit);
  const held = (net: number) => reach.plus.has(net) || reach.minus.has(net) || reach.outputs.has(net);
  return site.legs.some((leg) => {
    const net = circuit.netOf(leg).index;
    return !held(net) && [...reach.from(net, 'no LEDs').keys()].some((n) => inputs.has(n) && !held(n));
  });
}

/** 'S1 at 10110, S2 at 1': every switch by its poles, first pole first. */
function describe(poles: readonly ContactSite[], now: Setting): string {
  const byPart = new Map<string, string>();
  for (const c of poles) byPart.set(c.placed.part.id, (byPart.get(c.placed.part.id) ?? '') + (now.get(c) ? '1' : '0'));
  return [...byPart].map(([part, closed]) => `${part} at ${closed}`).join(', ');
}

/** A button pressed twice as a finger does, with the switches where a memory can be written if there is such a setting. */
function press(plan: Plan, button: ContactSite, ready: Setting | undefined): Finding[] {
  const done = pressButton({ ...plan, switches: switchesAt(plan, ready) }, button);
  if (!done) return [];
  const { circuit, held, released, events } = done;
  const id = button.placed.part.id;
  const seen = (findings: readonly Finding[], when: string) => findings.map((f) => ({ ...f, when }));
  return [
    ...pressFindings(done),
    ...seen(momentFindings(circuit, held), `${id} pressed`),
    ...seen(momentFindings(circuit, released), `${id} released`),
    ...seen(logFindings(circuit, events), `${id} pressed`),
  ];
}
