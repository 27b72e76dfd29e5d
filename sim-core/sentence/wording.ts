/** A sentence before its things have names: text and references in order, as rules and fixes write them. */
import type { Plan } from '../../shared/plan.ts';
import { noun } from './nouns.ts';
import type { Ref } from './ref.ts';
import type { Sentence, Word } from './sentence.ts';

/** A pin of a chip that the sentence has named already: "its pin 12 (GND)". */
interface OwnPin {
  readonly its: Ref;
}
type Piece = string | Ref | OwnPin;
export type Wording = readonly Piece[];

/** Text with references in it: say`${led} is dim.` A wording within a wording is taken apart. */
export function say(text: TemplateStringsArray, ...words: readonly (Piece | Wording | number)[]): Wording {
  return text.flatMap((piece, i): Wording => {
    const word = words[i] ?? '';
    return [piece, ...(typeof word === 'number' ? [String(word)] : isWording(word) ? word : [word])].filter((w) => w !== '');
  });
}

const isWording = (word: Piece | Wording): word is Wording => Array.isArray(word);

export const its = (pin: Ref): OwnPin => ({ its: pin });

/** "A", "A and B", "A, B and C". */
export const listed = (words: readonly Piece[]): Wording =>
  words.flatMap((w, i): Wording => (i === 0 ? [w] : [i === words.length - 1 ? ' and ' : ', ', w]));

/** Every reference under its name on this bench. */
export const withNames = (wording: Wording, plan: Plan): Sentence =>
  wording.map((w): Word => (typeof w === 'string' ? w : 'its' in w ? ownPin(noun(w.its, plan)) : noun(w, plan)));

/** "U1 pin 12 (GND)" → "its pin 12 (GND)"; "the + terminal of PS1" → "its + terminal" */
const ownPin = (w: Word): Word =>
  typeof w === 'string' ? w : { ...w, text: `its ${w.text.replace(/^\w+ (?=pin |leg )|^the | of \w+$/g, '')}` };
