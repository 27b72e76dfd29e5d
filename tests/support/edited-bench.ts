/** The greenhouse bench with one thing changed: a part or a wire gone or another, and the sensors as a test sets them. */
import { readFileSync } from 'node:fs';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';

export const greenhouse = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;

/** The supply on, and the poles of S1 closed where `sensors` says so. */
export const at = (sensors: readonly boolean[], plan: Plan): Plan => ({ ...plan, switches: { PS1: [true], S1: [...sensors] } });

/** `id`: a part or a wire. */
export const without = (plan: Plan, id: string): Plan => ({
  ...plan,
  parts: plan.parts.filter((p) => p.id !== id),
  wires: plan.wires.filter((w) => w.id !== id),
});

export const withPart = (plan: Plan, id: string, change: Partial<PlanPart>): Plan => ({
  ...plan,
  parts: plan.parts.map((p) => (p.id === id ? { ...p, ...change } : p)),
});

export const withWire = (plan: Plan, id: string, change: Partial<PlanWire>): Plan => ({
  ...plan,
  wires: plan.wires.map((w) => (w.id === id ? { ...w, ...change } : w)),
});

/** The wire that ends in this hole. */
export const wireAt = (hole: string): PlanWire => greenhouse.wires.find((w) => w.from === hole || w.to === hole)!;
