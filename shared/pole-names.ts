/** What the poles of switches are called: one name for one pole of a plan, whatever its capitals. */
import type { Plan, PlanPart } from './plan.ts';

/** pole: from 0. undefined: it has no name. */
export const nameOfPole = (part: PlanPart | undefined, pole: number): string | undefined => part?.poleNames?.[pole] || undefined;

export interface NamedPole {
  readonly part: string;
  /** from 0 */
  readonly pole: number;
  readonly name: string;
}

/** Every pole with a name, by its name in small letters; of two that have the same, the first. */
export function namedPoles({ parts }: Pick<Plan, 'parts'>): ReadonlyMap<string, NamedPole> {
  const poles = new Map<string, NamedPole>();
  for (const part of parts)
    for (const [pole, name] of part.poleNames?.entries() ?? []) {
      const key = name.toLowerCase();
      if (name !== '' && !poles.has(key)) poles.set(key, { part: part.id, pole, name });
    }
  return poles;
}
