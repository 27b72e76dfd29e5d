/** Why an LED or a pin changes by itself: it is watched on a copy of the bench; what keeps the bench moving is named, or what may make a real one flicker. */
import { findingsOf } from '../findings/ask-rule.ts';
import type { Rule } from '../findings/rule.ts';
import { toPart } from '../findings/rule.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import { benchOscillates } from '../findings/rules/bench/oscillates.ts';
import { supplyOutOfRange } from '../findings/rules/chip/supply-out-of-range.ts';
import { inputFloating } from '../findings/rules/input/floating.ts';
import { currentLimit } from '../findings/rules/supply/current-limit.ts';
import type { Readings } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import type { Ref } from '../sentence/wording.ts';
import type { Chain, Link, Reason } from './answer.ts';
import type { ExplanationQuestion } from './explanation-step.ts';

/** The first look after so long [s], each next one after so many times as long, up to so long in all: fast clocks and slow ones are both seen. */
const FIRST_LOOK = 1e-6;
const GROWTH = 1.3;
const LONGEST = 2;
/** So many turns of the simulator are spent on it. */
const MOST_TURNS = 20_000;
const TURNS_AT_ONCE = 100;
/** Findings of one kind that are named. */
const MOST_NAMED = 3;

/** of: an LED or a pin of a chip. */
export function whyFlicker(q: ExplanationQuestion, of: Ref): Chain {
  const seen = q.sim.pending || q.scene.readings.restless ? watched(q, of) : { changes: 0, seconds: 0 };
  const { restless } = q.scene.readings;
  const still = restless ? 'flickers-unseen' : seen.seconds > 0 ? 'flickers-not-seen' : 'flickers-not';
  const headline: Reason = { code: seen.changes > 0 ? 'flickers' : still, at: [of], data: seen };
  const loops = restless ? found(q.scene, benchOscillates) : [];
  const clocks = q.scene.circuit.chips.filter(
    (c) => c.spec.inputs.length === 0 && q.scene.chip(c.placed.part.id)?.state.doing !== 'no supply',
  );
  const running: Reason[] =
    seen.changes > 0 && clocks.length > 0 ? [{ code: 'flicker-clock', at: clocks.map((c) => toPart(c.placed)), data: {} }] : [];
  return [headline, ...loops, ...running, ...onARealBench(q)];
}

/** How often it has changed between looks, and for how long it was watched [s]. */
function watched({ sim }: ExplanationQuestion, of: Ref): { readonly changes: number; readonly seconds: number } {
  const copy = simulate(sim.plan());
  if (!copy.ok) return { changes: 0, seconds: 0 };
  const from = copy.value.now;
  let last = lookOf(copy.value.readings(), of);
  let [changes, turns] = [0, 0];
  for (let step = FIRST_LOOK; copy.value.now - from < LONGEST && turns < MOST_TURNS; step *= GROWTH) {
    const slices = copy.value.waitInSlices(step);
    while (!slices.go(TURNS_AT_ONCE) && turns < MOST_TURNS) turns += TURNS_AT_ONCE;
    slices.stop();
    const now = lookOf(copy.value.readings(), of);
    if (now !== last) changes++;
    last = now;
  }
  return { changes, seconds: copy.value.now - from };
}

function lookOf({ leds, chips }: Readings, { kind, id }: Ref): string | null | undefined {
  if (kind === 'led') return leds.find((l) => l.led === id)?.brightness;
  const [part, pin] = id.split('.');
  return chips.find((c) => c.part === part)?.pins.find((p) => p.pin === pin)?.level;
}

/** What may make it flicker beyond what is simulated: inputs that float, a supply that is not what it should be, contacts that bounce or sit loose. */
function onARealBench({ scene }: ExplanationQuestion): readonly Link[] {
  const contacts = scene.circuit.contacts;
  const [first] = contacts;
  const parts = [...new Map(contacts.map((c) => [c.placed.part.id, toPart(c.placed)])).values()];
  const bounce: Reason[] = first
    ? [
        {
          code: 'flicker-bounce',
          at: parts.slice(0, MOST_NAMED),
          data: { mean: first.contact.bounce.mean, most: first.contact.bounce.most },
        },
      ]
    : [];
  return [
    ...found(scene, inputFloating),
    ...found(scene, supplyOutOfRange),
    ...found(scene, currentLimit),
    ...bounce,
    { code: 'flicker-loose', at: [], data: {} },
  ];
}

const found = <Data extends object>(scene: RuleContext, rule: Rule<Data>): Link[] =>
  rule.reads === 'moment' ? findingsOf(rule, rule.look(scene)).slice(0, MOST_NAMED) : [];
