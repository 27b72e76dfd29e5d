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

export interface OverloadDamage {
  /** voltages have come to rest at x; until the next call they stay so */
  settle(x: Float64Array, now: number): void;
  /** voltages have been on their way since the last call, and are at x now */
  follow(x: Float64Array, now: number): void;
  /** voltages leave what they rested at */
  leave(now: number): void;
  /** up to when stress has been summed [s] */
  since(): number;
  /** when the next part will be damaged if nothing changes [s]; Infinity: never */
  due(): number;
  /** that time has come: which part, and by what */
  take(now: number): Breakdown | undefined;
  /** this part is gone, or another one stands in its place */
  forget(part: string): void;
}

const NONE: readonly Stress[] = [];

export function makeOverloadDamage(circuit: () => Circuit): OverloadDamage {
  /** by part, cause and pin: the share of its life that is used up */
  const used = new Map<string, number>();
  let gauges: readonly StressLimit[] = [];
  let measured: Circuit | undefined;
  let stresses = NONE;
  let since = 0;
  let due = Number.POSITIVE_INFINITY;
  const key = ({ gauge: { part, by, pin = '' } }: Stress) => `${part} ${by} ${pin}`;
  const left = (s: Stress) => 1 - (used.get(key(s)) ?? 0);
  const pass = (now: number) => {
    for (const s of stresses) used.set(key(s), (used.get(key(s)) ?? 0) + s.rate * (now - since));
    since = now;
  };
  const look = (x: Float64Array): readonly Stress[] => {
    const here = circuit();
    if (here !== measured) gauges = stressLimitsOf(here);
    measured = here;
    let found: Stress[] | undefined;
    for (const gauge of gauges) {
      const value = gauge.read(x);
      if (!(value > gauge.limit)) continue;
      const { seconds, times } = gauge.law;
      found ??= [];
      found.push({ gauge, measured: value, rate: ((value / gauge.limit) ** times - 1) / seconds });
    }
    return found ?? NONE;
  };
  const plan = (now: number) => {
    due = Number.POSITIVE_INFINITY;
    for (const s of stresses) due = Math.min(due, now + Math.max(0, left(s)) / s.rate);
  };
  return {
    since() {
      return since;
    },
    due() {
      return due;
    },
    settle(x, now) {
      pass(now);
      stresses = look(x);
      plan(now);
    },
    follow(x, now) {
      stresses = look(x);
      pass(now);
      plan(now);
    },
    leave(now) {
      pass(now);
      stresses = NONE;
      due = Number.POSITIVE_INFINITY;
    },
    take(now) {
      pass(now);
      const gone = stresses.find((s) => left(s) <= 1e-9);
      due = Number.POSITIVE_INFINITY;
      if (!gone) return undefined;
      used.delete(key(gone));
      const { part, by, pin, limit } = gone.gauge;
      return { part, damage: { by, measured: gone.measured, limit, ...(pin === undefined ? {} : { pins: [pin] }) } };
    },
    forget(part) {
      for (const name of used.keys()) if (name.startsWith(`${part} `)) used.delete(name);
      stresses = stresses.filter((s) => s.gauge.part !== part);
    },
  };
}
