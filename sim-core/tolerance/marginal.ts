/** What a bench does only marginally: LEDs that typical outputs light and guaranteed ones do not, write pulses that keep their limits only with the parts as drawn. */
import type { Plan } from '../../shared/plan.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { LedSite } from '../run/circuit/sites.ts';
import { blocksOf, type Setting, switchesAt } from '../run/circuit/switch-settings.ts';
import { isLit, type Readings } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import { type BeyondAtExtremes, beyondAtExtremes } from './at-extremes.ts';
import { evaluateMargin, type Margin } from './margin-evaluation.ts';
import { roomOf } from './margin-query.ts';
import { pulseQuestions } from './pulses.ts';

/** Buttons that write beyond so many are not judged: each takes some forty simulations. */
const MOST_WRITERS = 2;

/** An LED that is lit with typical outputs; `guaranteed` [A] is what it gets at the same setting when outputs give no more than their sheets promise. */
export interface MarginalLed {
  readonly site: LedSite;
  readonly typical: number;
  readonly guaranteed: number;
  /** the chips whose outputs are joined to it */
  readonly drivers: readonly string[];
}

export interface Marginals {
  readonly circuit: Circuit;
  readonly leds: readonly MarginalLed[];
  /** kept with everything nominal, and not at the extremes */
  readonly pulses: readonly Margin[];
  /** kept as printed, and not with all parts at their extremes; LEDs that are named above are not here */
  readonly extremes: readonly BeyondAtExtremes[];
}

/** For each LED the setting, nearest to the plan's own, at which it was seen lit. */
export interface LitLog {
  note(setting: Setting, away: number, readings: Readings): void;
  readonly lit: ReadonlyMap<string, Lit>;
}
interface Lit {
  readonly setting: Setting;
  readonly away: number;
  readonly amps: number;
}

export function makeLitLog(): LitLog {
  const lit = new Map<string, Lit>();
  return {
    lit,
    note(setting, away, { leds }) {
      for (const { led, brightness, amps } of leds)
        if (isLit(brightness) && away < (lit.get(led)?.away ?? Number.POSITIVE_INFINITY)) lit.set(led, { setting, away, amps });
    },
  };
}

/** plan: supplies on. `ready`: a setting at which a memory can be written. */
export function marginalsOf(plan: Plan, circuit: Circuit, { lit }: LitLog, ready: Setting | undefined): Marginals {
  const asked = pulseQuestions({ ...plan, switches: switchesAt(plan, ready) }, circuit);
  const writers = [...new Set(asked.map((q) => q.button))].slice(0, MOST_WRITERS);
  const pulses = asked.flatMap((q) => {
    const seen = q.trial([], []);
    if (!writers.includes(q.button) || !seen || roomOf(q, q.read(seen)) < 0) return [];
    const margin = evaluateMargin(q, 'worst', { seed: 1, runs: 0 });
    return margin.holds ? [] : [margin];
  });
  const leds = findMarginalLeds(plan, circuit, lit);
  const known = new Set(leds.map((l) => l.site.id));
  const settings = [...new Set([...lit.values()].map((l) => l.setting))];
  const extremes = beyondAtExtremes(plan, circuit, settings).filter((f) => f.what !== 'led-lit' || !known.has(f.at.id));
  return { circuit, leds, pulses, extremes };
}

function findMarginalLeds(plan: Plan, circuit: Circuit, lit: LitLog['lit']): MarginalLed[] {
  const guaranteed = new Map<Setting, Readings | undefined>();
  return circuit.leds.flatMap((site): MarginalLed[] => {
    const seen = lit.get(site.id);
    const drivers = driversOf(circuit, site);
    if (!seen || drivers.length === 0) return [];
    const { setting } = seen;
    if (!guaranteed.has(setting)) {
      const made = simulate({ ...plan, switches: switchesAt(plan, setting) }, { drive: 'guaranteed', bounce: false, still: true });
      guaranteed.set(setting, made.ok ? made.value.readings() : undefined);
    }
    const reading = guaranteed.get(setting)?.leds.find((l) => l.led === site.id);
    if (!reading || isLit(reading.brightness)) return [];
    return [{ site, typical: seen.amps, guaranteed: reading.amps, drivers }];
  });
}

function driversOf(circuit: Circuit, { anode, cathode }: LedSite): string[] {
  const blocks = blocksOf(circuit, [anode, cathode]);
  return circuit.chips
    .filter((c) => c.outputs.some((o) => [...blocksOf(circuit, [o.leg])].some((b) => blocks.has(b))))
    .map((c) => c.placed.part.id);
}
