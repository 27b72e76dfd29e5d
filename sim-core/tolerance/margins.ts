/**
 * The margins of a plan: every write pulse, every level that a resistor or an output holds, every LED that is lit, every output that gives current,
 * every package that does, and with real wiring the dip of every chip's supply,
 * each at the setting of the switches where it is nearest to its limit. What is judged with what: parts that are joined to the figure's net by anything but
 * the supply's terminals, and the supplies; a part elsewhere that only loads the supply is left nominal.
 */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { ContactSite } from '../run/circuit/sites.ts';
import { blocksOf, type Setting, switchedOn, switchesAt, walkSettings } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { type AskedAtRest, askedAtRest } from './at-rest.ts';
import { type ExperimentRunner, makeExperimentRunner } from './experiment.ts';
import { evaluateMargin, type Margin, type Method } from './margin-evaluation.ts';
import { type MarginQuery, roomOf, type What } from './margin-query.ts';
import { USUAL_RUNS } from './monte-carlo.ts';
import { pulseQuestions } from './pulses.ts';
import { dipQuestions } from './supply-droop-margins.ts';
import { tolerancesOf } from './tolerances.ts';

/** A setting that is nearer to the limit by less than this share of it is no reason to leave the one found first. */
const WORTH_IT = 0.01;

const ORDER: readonly What[] = [
  'pulse-width-guaranteed',
  'pulse-width-maximum',
  'level-low',
  'level-high',
  'led-lit',
  'led-current',
  'pin-current',
  'package-current',
  'supply-dip',
];

/** In order of what they are about, then of the plan's parts, then of pins. `seed`: of the draws, for `random`. Fails with `plan/…`. */
export function marginsOf(plan: Plan, method: Method, seed = 1): Outcome<readonly Margin[]> {
  const asked = questionsOf(plan);
  if (!asked.ok) return asked;
  const margins = asked.value.map((q) => evaluateMargin(q, method, { seed, runs: USUAL_RUNS }));
  const place = ({ at: { id } }: Margin): readonly [part: number, pin: number] => {
    const [part = '', pin = ''] = id.split('.');
    return [plan.parts.findIndex((p) => p.id === part), Number(pin) || 0];
  };
  return done(
    margins.sort((a, b) => {
      const [[partA, pinA], [partB, pinB]] = [place(a), place(b)];
      return ORDER.indexOf(a.what) - ORDER.indexOf(b.what) || partA - partB || pinA - pinB;
    }),
  );
}

function questionsOf(plan: Plan): Outcome<readonly MarginQuery[]> {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return circuit;
  const on = switchedOn(plan, circuit.value);
  const made = simulate(on, { bounce: false, still: true });
  if (!made.ok) return made;
  const sim = made.value;
  const nearest = new Map<string, { asked: AskedAtRest; setting: Setting; room: number }>();
  let ready: { setting: Setting; away: number } | undefined;
  walkSettings(
    sim,
    (c) => steers(sim.circuit, c),
    (setting, away) => {
      const seen = { circuit: sim.circuit, readings: sim.readings(), events: [] };
      if (away < (ready?.away ?? Number.POSITIVE_INFINITY) && seen.readings.chips.some((c) => c.state.doing === 'ready to write'))
        ready = { setting, away };
      for (const asked of askedAtRest(seen)) {
        const key = `${asked.what} ${asked.at.id}`;
        const room = roomOf(asked, asked.read(seen));
        const before = nearest.get(key);
        if (!before || room < before.room - WORTH_IT) nearest.set(key, { asked, setting, room });
      }
    },
  );
  const bySetting = new Map<Setting, AskedAtRest[]>();
  for (const { asked, setting } of nearest.values()) bySetting.set(setting, [...(bySetting.get(setting) ?? []), asked]);
  const atRest = [...bySetting].flatMap(([setting, asked]) =>
    together(sim.circuit, asked, makeExperimentRunner({ plan: { ...on, switches: switchesAt(on, setting) } })),
  );
  return done([
    ...pulseQuestions({ ...on, switches: switchesAt(on, ready?.setting) }, sim.circuit),
    ...atRest,
    ...dipQuestions(on, sim.circuit),
  ]);
}

/** Questions that one trial answers. */
function together(circuit: Circuit, asked: readonly AskedAtRest[], trial: ExperimentRunner): MarginQuery[] {
  const blocks = asked.map((a) => blocksOf(circuit, a.legs));
  const drawn = tolerancesOf(circuit, new Set(blocks.flatMap((b) => [...b])));
  return asked.map((a, i) => ({ ...a, spreads: tolerancesOf(circuit, blocks[i] ?? new Set()), drawn, trial }));
}

/** Does this pole decide an input that no output shares? */
function steers(circuit: Circuit, pole: ContactSite): boolean {
  const blocks = blocksOf(circuit, pole.legs);
  const within = (leg: ContactSite['legs'][number]) => [...blocksOf(circuit, [leg])].some((b) => blocks.has(b));
  return circuit.chips.some((c) => c.inputs.some((p) => within(p.leg))) && !circuit.chips.some((c) => c.outputs.some((o) => within(o.leg)));
}
