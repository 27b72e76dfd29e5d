/** A cure in the words of its button: exactly what will be done. */
import type { Plan } from '../../shared/plan.ts';
import type { Deed, FixRule } from '../repair/fix.ts';
import { noun } from '../sentence/nouns.ts';
import type { Ref } from '../sentence/ref.ts';
import { plain } from '../sentence/sentence.ts';
import { siFormat } from '../units/quantity.ts';

/** "Put 330 Ω in series with LED D1" */
export function fixText({ deed }: FixRule, plan: Plan): string {
  const it = (ref: Ref) => plain([noun(ref, plan)]);
  return WORDS[deed.does](deed as never, it);
}

type Words = { readonly [K in Deed['does']]: (deed: Extract<Deed, { does: K }>, it: (ref: Ref) => string) => string };

const WORDS: Words = {
  hold: ({ what, high, ohms }, it) => `Hold ${it(what)} ${high ? 'high' : 'low'} with ${siFormat(ohms, 'Ω')}`,
  'in-series': ({ what, ohms }, it) => `Put ${siFormat(ohms, 'Ω')} in series with ${it(what)}`,
  exchange: ({ what, ohms }) => `Make ${what.id} ${siFormat(ohms, 'Ω')}`,
  join: ({ from, to }) => `Join ${from} and ${to} with a wire`,
  feed: ({ what }, it) => `Wire the supply to ${it(what)}`,
  decouple: ({ what, farads }, it) => `Put ${siFormat(farads, 'F')} beside ${it(what)}`,
  'turn-round': ({ what }, it) => `Turn ${it(what)} round`,
};
