/** What is said of the switches of a proof: which of them keeps a memory from its outputs, and which stands otherwise than when it was signed. */
import type { Plan } from '../../shared/plan.ts';
import { noun, say } from './nouns.ts';
import type { Sentence, Word } from './sentence.ts';

interface Pole {
  readonly part: string;
  readonly pole: number;
  /** as it has to stand, or stood */
  readonly closed: boolean;
}

const poleNoun = ({ part, pole }: Pole, plan: Plan): Word => noun({ kind: 'pole', id: `${part}.${pole + 1}` }, plan);
const word = (closed: boolean): string => (closed ? 'closed' : 'open');

/** "pole 1 of S3 (/OE) is closed, so U1 does not drive its outputs"; one pole may do so to several memories. */
export function sayAsleep(asleep: readonly (Pole & { readonly memory: string })[], plan: Plan): Sentence {
  const poles = asleep.filter((a, i) => asleep.findIndex((b) => b.part === a.part && b.pole === a.pole) === i);
  const memories = [...new Set(asleep.map((a) => a.memory))];
  const standing = listed(poles.map((p) => say`${poleNoun(p, plan)} is ${word(!p.closed)}`));
  return memories.length > 1
    ? say`${standing}, so ${memories.join(' and ')} do not drive their outputs`
    : say`${standing}, so ${memories[0] ?? ''} does not drive its outputs`;
}

/** "pole 1 of S3 (/OE) was open and is closed now" */
export const sayMoved = (moved: readonly Pole[], plan: Plan): Sentence =>
  listed(moved.map((p) => say`${poleNoun(p, plan)} was ${word(p.closed)} and is ${word(!p.closed)} now`));

const listed = (sentences: readonly Sentence[]): Sentence => sentences.flatMap((s, i) => (i === 0 ? [...s] : [', ', ...s]));
