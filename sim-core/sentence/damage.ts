/** What kills parts, in words: who bore it, what it did, in which unit. */
import type { PlanPart } from '../../shared/plan.ts';

type Damage = NonNullable<PlanPart['damaged']>;

interface Bore {
  readonly who: string;
  readonly did: string;
  readonly unit: string;
}

const BORE: Readonly<Record<Damage['by'], Bore>> = {
  current: { who: 'it', did: 'carried', unit: 'A' },
  reverse: { who: 'it', did: 'stood the wrong way round at', unit: 'V' },
  power: { who: 'it', did: 'turned into heat', unit: 'W' },
  supply: { who: 'it', did: 'was supplied with', unit: 'V' },
  voltage: { who: 'it', did: 'stood at', unit: 'V' },
  output: { who: 'as an output it', did: 'carried', unit: 'A' },
  package: { who: 'its outputs together', did: 'carried', unit: 'A' },
  input: { who: 'the diodes at it', did: 'carried', unit: 'A' },
};

/** by: a Damage's, as it comes out of a finding's or a reason's data. */
export function boreOf(by: string): Bore {
  const found = Object.entries(BORE).find(([name]) => name === by)?.[1];
  if (!found) throw new Error(`no words for damage by ${by}`);
  return found;
}
