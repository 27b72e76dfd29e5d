/** What a bench does only by luck: lamps that typical outputs light and guaranteed ones do not, write pulses that keep their limits only with the parts as drawn. */
import type { Plan } from '../../shared/plan.ts';
import type { Circuit, LampSite } from '../run/circuit.ts';
import type { Readings } from '../run/readings.ts';
import { blocksOf, handsAt, type Setting } from '../run/settings.ts';
import { simulate } from '../run/simulation.ts';
import { judge, type Margin } from './judge.ts';
import { pulseQuestions } from './pulses.ts';
import { roomOf } from './question.ts';

/** Buttons that write beyond so many are not judged: each takes some forty simulations. */
const MOST_WRITERS = 2;

/** A lamp that is lit with typical outputs; `guaranteed` [A] is what it gets at the same setting when outputs give no more than their sheets promise. */
export interface LuckyLamp {
  readonly site: LampSite;
  readonly typical: number;
  readonly guaranteed: number;
  /** the chips whose outputs are joined to it */
  readonly drivers: readonly string[];
}

export interface Luck {
  readonly circuit: Circuit;
  readonly lamps: readonly LuckyLamp[];
  /** kept with everything nominal, and not at the extremes */
  readonly pulses: readonly Margin[];
}

/** For each lamp the setting, nearest to the plan's own, at which it was seen lit. */
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
    note(setting, away, { lamps }) {
      for (const { lamp, glow, amps } of lamps)
        if ((glow === 'lit' || glow === 'over') && away < (lit.get(lamp)?.away ?? Number.POSITIVE_INFINITY))
          lit.set(lamp, { setting, away, amps });
    },
  };
}

/** plan: supplies on. `ready`: a setting at which a memory can be written. */
export function luckOf(plan: Plan, circuit: Circuit, { lit }: LitLog, ready: Setting | undefined): Luck {
  const asked = pulseQuestions({ ...plan, hands: handsAt(plan, ready) }, circuit);
  const writers = [...new Set(asked.map((q) => q.button))].slice(0, MOST_WRITERS);
  const pulses = asked.flatMap((q) => {
    const seen = q.trial([], []);
    if (!writers.includes(q.button) || !seen || roomOf(q, q.read(seen)) < 0) return [];
    const margin = judge(q, 'worst', { seed: 1, runs: 0 });
    return margin.holds ? [] : [margin];
  });
  return { circuit, lamps: luckyLamps(plan, circuit, lit), pulses };
}

function luckyLamps(plan: Plan, circuit: Circuit, lit: LitLog['lit']): LuckyLamp[] {
  const guaranteed = new Map<Setting, Readings | undefined>();
  return circuit.lamps.flatMap((site): LuckyLamp[] => {
    const seen = lit.get(site.id);
    const drivers = driversOf(circuit, site);
    if (!seen || drivers.length === 0) return [];
    const { setting } = seen;
    if (!guaranteed.has(setting)) {
      const made = simulate({ ...plan, hands: handsAt(plan, setting) }, { drive: 'guaranteed', bounce: false, still: true });
      guaranteed.set(setting, made.ok ? made.value.readings() : undefined);
    }
    const reading = guaranteed.get(setting)?.lamps.find((l) => l.lamp === site.id);
    if (!reading || reading.glow === 'lit' || reading.glow === 'over') return [];
    return [{ site, typical: seen.amps, guaranteed: reading.amps, drivers }];
  });
}

function driversOf(circuit: Circuit, { anode, cathode }: LampSite): string[] {
  const blocks = blocksOf(circuit, [anode, cathode]);
  return circuit.chips
    .filter((c) => c.outputs.some((o) => [...blocksOf(circuit, [o.leg])].some((b) => blocks.has(b))))
    .map((c) => c.placed.part.id);
}
