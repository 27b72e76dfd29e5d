/** A sentence whose nouns can be clicked: plain text and references, in order. */
import type { Ref } from '../sentence/ref.ts';

export type Word = string | { readonly text: string; readonly ref: Ref };
export type Sentence = readonly Word[];

/** The sentence without its links. */
export const plain = (s: Sentence): string => s.map((w) => (typeof w === 'string' ? w : w.text)).join('');
