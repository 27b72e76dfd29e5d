/**
 * What overload does to parts: stress beyond an absolute maximum, summed over time, until the part is damaged and stays so. The law and its times stand in
 * gauges.ts. Not modelled: cooling down between two overloads, heat spreading from part to part, ageing below the maximum.
 */
import type { Circuit } from '../circuit/circuit.ts';
import { type Damage, type StressLimit, stressLimitsOf } from './stress-limits.ts';

/** What a part is being stressed by now. */
interface Stress {
  readonly gauge: StressLimit;
  readonly measured: number;
  /** parts of a life a second */
  readonly rate: number;
}

export interface Breakdown {
  readonly part: string;
  readonly damage: Damage;
}

const NONE: readonly Stress[] = [];

export class OverloadDamage {
  private readonly circuit: () => Circuit;
  /** by part, cause and pin: the share of its life that is used up */
  private readonly used = new Map<string, number>();
  private gauges: readonly StressLimit[] = [];
  private measured: Circuit | undefined;
  private stresses: readonly Stress[] = NONE;
  private summedUntil = 0;
  private dueAt = Number.POSITIVE_INFINITY;

  constructor(circuit: () => Circuit) {
    this.circuit = circuit;
  }

  /** up to when stress has been summed [s] */
  since(): number {
    return this.summedUntil;
  }

  /** when the next part will be damaged if nothing changes [s]; Infinity: never */
  due(): number {
    return this.dueAt;
  }

  /** voltages have come to rest at x; until the next call they stay so */
  settle(x: Float64Array, now: number): void {
    this.pass(now);
    this.stresses = this.look(x);
    this.plan(now);
  }

  /** voltages have been on their way since the last call, and are at x now */
  follow(x: Float64Array, now: number): void {
    this.stresses = this.look(x);
    this.pass(now);
    this.plan(now);
  }

  /** voltages leave what they rested at */
  leave(now: number): void {
    this.pass(now);
    this.stresses = NONE;
    this.dueAt = Number.POSITIVE_INFINITY;
  }

  /** that time has come: which part, and by what */
  take(now: number): Breakdown | undefined {
    this.pass(now);
    const gone = this.stresses.find((s) => this.left(s) <= 1e-9);
    this.dueAt = Number.POSITIVE_INFINITY;
    if (!gone) return undefined;
    this.used.delete(this.key(gone));
    const { part, by, pin, limit } = gone.gauge;
    return { part, damage: { by, measured: gone.measured, limit, ...(pin === undefined ? {} : { pins: [pin] }) } };
  }

  /** this part is gone, or another one stands in its place */
  forget(part: string): void {
    for (const name of this.used.keys()) if (name.startsWith(`${part} `)) this.used.delete(name);
    this.stresses = this.stresses.filter((s) => s.gauge.part !== part);
  }

  private key({ gauge: { part, by, pin = '' } }: Stress): string {
    return `${part} ${by} ${pin}`;
  }

  private left(s: Stress): number {
    return 1 - (this.used.get(this.key(s)) ?? 0);
  }

  private pass(now: number): void {
    for (const s of this.stresses) this.used.set(this.key(s), (this.used.get(this.key(s)) ?? 0) + s.rate * (now - this.summedUntil));
    this.summedUntil = now;
  }

  private look(x: Float64Array): readonly Stress[] {
    const here = this.circuit();
    // other names and other bytes are no other parts
    if (here.network !== this.measured?.network) this.gauges = stressLimitsOf(here);
    this.measured = here;
    let found: Stress[] | undefined;
    for (const gauge of this.gauges) {
      const value = gauge.read(x);
      if (!(value > gauge.limit)) continue;
      const { seconds, times } = gauge.law;
      found ??= [];
      found.push({ gauge, measured: value, rate: ((value / gauge.limit) ** times - 1) / seconds });
    }
    return found ?? NONE;
  }

  private plan(now: number): void {
    this.dueAt = Number.POSITIVE_INFINITY;
    for (const s of this.stresses) this.dueAt = Math.min(this.dueAt, now + Math.max(0, this.left(s)) / s.rate);
  }
}
