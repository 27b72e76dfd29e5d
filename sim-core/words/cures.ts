/** A cure in the words of its button: exactly what will be done. */
import type { Plan } from '../../shared/plan.ts';
import type { Cure, Deed } from '../cures/cure.ts';
import type { Ref } from '../findings/finding.ts';
import { siFormat } from '../units/quantity.ts';
import { noun } from './nouns.ts';
import { plain } from './sentence.ts';

/** "Put 330 Ω in series with lamp D1" */
export function sayCure({ deed }: Cure, plan: Plan): string {
  const it = (ref: Ref) => plain([noun(ref, plan)]);
  return WORDS[deed.does](deed as never, it);
}

type Words = { readonly [K in Deed['does']]: (deed: Extract<Deed, { does: K }>, it: (ref: Ref) => string) => string };

const WORDS: Words = {
  hold: ({ what, high, ohms }, it) => `Hold ${it(what)} ${high ? 'high' : 'low'} with ${siFormat(ohms, 'Ω')}`,
  'in-series': ({ what, ohms }, it) => `Put ${siFormat(ohms, 'Ω')} in series with ${it(what)}`,
  exchange: ({ what, ohms }) => `Make ${what.id} ${siFormat(ohms, 'Ω')}`,
  join: ({ from, to }) => `Join ${from} and ${to} with a lead`,
  feed: ({ what }, it) => `Lead the supply to ${it(what)}`,
  decouple: ({ what, farads }, it) => `Put ${siFormat(farads, 'F')} beside ${it(what)}`,
  'turn-round': ({ what }, it) => `Turn ${it(what)} round`,
};
