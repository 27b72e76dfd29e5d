/**
 * What is spoken when LEDs change: "vent lit, fan dark". What follows a hand is said at once; what changes by itself is said now and then, and an LED that
 * goes on changing is said to do so once, until it stays as it is.
 */
import { type Brightness, brightnessText, type Readings } from '../../sim-core/index.ts';
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
  now: Brightness;
  said: Brightness;
  /** when it changed by itself, the last few [ms] */
  changes: number[];
  restless: boolean;
}

export class LiveAnnouncer {
  private model: BenchModel | undefined;
  /** the LEDs' names, and how each has changed, by id */
  private names: ReadonlyMap<string, string> = new Map();
  private readonly leds = new Map<string, Watched>();
  /** damaged parts as they were told last, and what there is to say of them */
  private damage: ReadonlyMap<string, string> = new Map();
  private broken: string[] = [];
  /** when something was last said [ms] */
  private saidAt = Number.NEGATIVE_INFINITY;
  /** a supply was on at the last reading */
  private powered = false;

  /** A bench stands: another one, or the same with parts damaged or replaced. */
  stand(next: BenchModel): void {
    const damage = damageIn(next.plan);
    if (this.model?.layout === next.layout) {
      const called = (id: string) => next.specimen.get(id)?.part.label ?? id;
      for (const [id, says] of damage) if (this.damage.get(id) !== says) this.broken.push(`${called(id)} is ${says}`);
      for (const id of this.damage.keys()) if (!damage.has(id)) this.broken.push(`${called(id)} is replaced`);
    } else {
      this.leds.clear();
      this.broken = [];
    }
    this.model = next;
    this.damage = damage;
    this.names = new Map(next.leds.map((l) => [l.led, l.name]));
  }

  /** handAt: when a hand last did something [ms] */
  see(readings: Readings, handAt: number, at: number): void {
    const here = new Set<string>();
    const on = readings.supplies.some((s) => s.on);
    // with the supply everything begins again
    if (on !== this.powered) for (const w of this.leds.values()) [w.restless, w.changes] = [false, []];
    this.powered = on;
    for (const { led, brightness } of readings.leds) {
      here.add(led);
      const w = this.leds.get(led);
      if (!w) this.leds.set(led, { now: brightness, said: brightness, changes: [], restless: false });
      else if (w.now !== brightness) {
        w.now = brightness;
        if (at - handAt > AFTER_HAND) w.changes = [...w.changes.filter((t) => at - t < WITHIN), at].slice(-MANY);
      }
    }
    // a damaged part's LEDs are read no more, and what killed it is said instead
    for (const id of this.leds.keys()) if (!here.has(id)) this.leds.delete(id);
  }

  /** What there is to say now; undefined if nothing. */
  take(handAt: number, at: number): string | undefined {
    if (at - handAt > AFTER_HAND && this.broken.length === 0 && at - this.saidAt < PAUSE) return undefined;
    const says = [...this.broken, ...this.news(at)];
    this.broken = [];
    if (says.length === 0) return undefined;
    this.saidAt = at;
    return says.join(', ');
  }

  private news(at: number): string[] {
    const calm = [...this.leds].filter(([, w]) => !w.restless);
    const starting = calm.filter(([, w]) => w.changes.length >= MANY);
    const others = calm.filter(([, w]) => w.changes.length < MANY && w.now !== w.said);
    for (const [, w] of starting) w.restless = true;
    for (const [, w] of others) w.said = w.now;
    const ended = [...this.leds].filter(([, w]) => w.restless && at - (w.changes.at(-1) ?? 0) > WITHIN);
    for (const [, w] of ended) [w.restless, w.said, w.changes] = [false, w.now, []];
    const name = (id: string) => this.names.get(id) ?? id;
    const plain = [...others, ...ended];
    const lit = [...this.leds.values()].filter((w) => w.now === 'lit').length;
    return [
      ...(plain.length > LISTED
        ? [`${plain.length} LEDs changed, ${lit} lit`]
        : plain.map(([id, w]) => `${name(id)} ${brightnessText(w.now)}`)),
      ...(starting.length > LISTED ? [`${starting.length} LEDs keep changing`] : starting.map(([id]) => `${name(id)} keeps changing`)),
    ];
  }
}
