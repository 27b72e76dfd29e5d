/** A sentence whose nouns can be clicked: plain text and references, in order. */
import type { Ref } from '../sentence/ref.ts';

/** A piece of a sentence: plain text, or the name of a thing on the bench. */
export type Word = string | { readonly text: string; readonly ref: Ref };
/** Text and references in order: a reference can be clicked. */
export type Sentence = readonly Word[];

/** The sentence without its links. */
export const plain = (s: Sentence): string => s.map((w) => (typeof w === 'string' ? w : w.text)).join('');
