/** What damages parts, in words: what carried the overload, what it did, in which unit. */
import type { PlanPart } from '../../shared/plan.ts';

type Damage = NonNullable<PlanPart['damaged']>;

interface Overload {
  readonly who: string;
  readonly did: string;
  readonly unit: string;
}

const OVERLOADS: Readonly<Record<Damage['by'], Overload>> = {
  current: { who: 'it', did: 'carried', unit: 'A' },
  reverse: { who: 'it', did: 'was reverse-biased at', unit: 'V' },
  power: { who: 'it', did: 'dissipated', unit: 'W' },
  supply: { who: 'it', did: 'was supplied with', unit: 'V' },
  voltage: { who: 'it', did: 'was at', unit: 'V' },
  output: { who: 'as an output it', did: 'carried', unit: 'A' },
  package: { who: 'its outputs together', did: 'carried', unit: 'A' },
  input: { who: 'its clamp diodes', did: 'carried', unit: 'A' },
};

/** by: a Damage's, as it comes out of a finding's or a reason's data. */
export function overloadWords(by: string): Overload {
  const found = Object.entries(OVERLOADS).find(([name]) => name === by)?.[1];
  if (!found) throw new Error(`no words for damage by ${by}`);
  return found;
}
