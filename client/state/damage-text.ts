/** How a part's damage is said on the page: what it bore, beside what it could have borne. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { type Change, overloadWords, replacing, siFormat } from '../../sim-core/index.ts';
import type { PlacedPart } from './bench-model.ts';

type Damage = NonNullable<PlanPart['damaged']>;

/** "damaged: carried 280 mA, limit 30 mA", "damaged at D0: as an output it carried 36 mA, limit 20 mA" */
function damageSays({ by, measured, limit, pins }: Damage): string {
  const { who, did, unit } = overloadWords(by);
  const bore = `${who === 'it' ? '' : `${who} `}${did} ${siFormat(measured, unit)}, limit ${siFormat(limit, unit)}`;
  return `damaged${pins ? ` at ${pins.join(', ')}` : ''}: ${bore}`;
}

/** The damaged parts of a plan by id, and what is said of each. */
export const damageIn = (plan: Plan): ReadonlyMap<string, string> =>
  new Map(plan.parts.flatMap((p) => (p.damaged ? [[p.id, damageSays(p.damaged)] as const] : [])));

/** The LEDs that are gone, alone or with their part, and what is said of each. */
export function goneLeds(plan: Plan, specimens: readonly PlacedPart[]): ReadonlyMap<string, string> {
  const damaged = new Map(plan.parts.flatMap((p) => (p.damaged ? [[p.id, p.damaged] as const] : [])));
  return new Map(
    specimens.flatMap(({ part, legs, leds }) => {
      const damage = damaged.get(part.id);
      if (!damage) return [];
      const { pins, ...bore } = damage;
      const burnt = (pin: string) => pins === undefined || legs.some((l) => l.pin.pin === pin && pins.includes(l.pin.name));
      return leds.filter((l) => burnt(l.anode) || burnt(l.cathode)).map((l) => [l.led, damageSays(bore)] as const);
    }),
  );
}

/** A new part of the same kind in the place of a damaged one; undefined if it is whole. */
export function replacement(plan: Plan, id: string): Change | undefined {
  const before = plan.parts.find((p) => p.id === id);
  return before?.damaged && replacing(plan, before);
}
