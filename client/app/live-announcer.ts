/**
 * What is spoken when LEDs change: "vent lit, fan dark". What follows a hand is said at once; what changes by itself is said now and then, and an LED that
 * goes on changing is said to do so once, until it stays as it is.
 */
import type { Glow, Readings } from '../core.ts';
import { glowWord } from '../scene/faces/led-look.ts';
import type { BenchModel } from '../state/bench-model.ts';
import { damageIn } from '../state/damage-text.ts';

/** More changes than this at once are counted, not listed. */
const LISTED = 8;
/** A change so soon after a hand's act follows from it [ms]. */
const AFTER_HAND = 250;
/** What happens by itself is spoken of no more often than this [ms]. */
const PAUSE = 3000;
/** So many changes by itself within such a time are one that goes on; without one for as long it has ended [ms]. */
const MANY = 3;
const WITHIN = 20_000;

interface Watched {
  now: Glow;
  said: Glow;
  /** when it changed by itself, the last few [ms] */
  changes: number[];
  restless: boolean;
}

export interface LiveAnnouncer {
  /** a bench stands: another one, or the same with parts damaged or replaced */
  stand(standing: BenchModel): void;
  /** handAt: when a hand last did something [ms] */
  see(readings: Readings, handAt: number, at: number): void;
  /** what there is to say now; undefined if nothing */
  take(handAt: number, at: number): string | undefined;
}

export function makeLiveAnnouncer(): LiveAnnouncer {
  let standing: BenchModel | undefined;
  let names: ReadonlyMap<string, string> = new Map();
  let leds = new Map<string, Watched>();
  let damage: ReadonlyMap<string, string> = new Map();
  let broken: string[] = [];
  let saidAt = Number.NEGATIVE_INFINITY;
  let powered = false;

  const news = (at: number): string[] => {
    const calm = [...leds].filter(([, w]) => !w.restless);
    const starting = calm.filter(([, w]) => w.changes.length >= MANY);
    const others = calm.filter(([, w]) => w.changes.length < MANY && w.now !== w.said);
    for (const [, w] of starting) w.restless = true;
    for (const [, w] of others) w.said = w.now;
    const ended = [...leds].filter(([, w]) => w.restless && at - (w.changes.at(-1) ?? 0) > WITHIN);
    for (const [, w] of ended) [w.restless, w.said, w.changes] = [false, w.now, []];
    const name = (id: string) => names.get(id) ?? id;
    const plain = [...others, ...ended];
    const lit = [...leds.values()].filter((w) => w.now === 'lit').length;
    return [
      ...(plain.length > LISTED ? [`${plain.length} LEDs changed, ${lit} lit`] : plain.map(([id, w]) => `${name(id)} ${glowWord(w.now)}`)),
      ...(starting.length > LISTED ? [`${starting.length} LEDs keep changing`] : starting.map(([id]) => `${name(id)} keeps changing`)),
    ];
  };

  return {
    stand(next) {
      const now = damageIn(next.plan);
      if (standing?.layout === next.layout) {
        const called = (id: string) => next.specimen.get(id)?.part.label ?? id;
        for (const [id, says] of now) if (damage.get(id) !== says) broken.push(`${called(id)} is ${says}`);
        for (const id of damage.keys()) if (!now.has(id)) broken.push(`${called(id)} is replaced`);
      } else {
        leds = new Map();
        broken = [];
      }
      standing = next;
      damage = now;
      names = new Map(next.leds.map((l) => [l.led, l.name]));
    },
    see(readings, handAt, at) {
      const here = new Set<string>();
      const on = readings.supplies.some((s) => s.on);
      // with the supply everything begins anew
      if (on !== powered) for (const w of leds.values()) [w.restless, w.changes] = [false, []];
      powered = on;
      for (const { led, glow } of readings.leds) {
        here.add(led);
        const w = leds.get(led);
        if (!w) leds.set(led, { now: glow, said: glow, changes: [], restless: false });
        else if (w.now !== glow) {
          w.now = glow;
          if (at - handAt > AFTER_HAND) w.changes = [...w.changes.filter((t) => at - t < WITHIN), at].slice(-MANY);
        }
      }
      // a damaged part's LEDs are read no more, and what killed it is said instead
      for (const id of leds.keys()) if (!here.has(id)) leds.delete(id);
    },
    take(handAt, at) {
      if (at - handAt > AFTER_HAND && broken.length === 0 && at - saidAt < PAUSE) return undefined;
      const says = [...broken, ...news(at)];
      broken = [];
      if (says.length === 0) return undefined;
      saidAt = at;
      return says.join(', ');
    },
  };
}
