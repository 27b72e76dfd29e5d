/** Every answer to a why in words: that about an LED, and those about a wire, a pin or a memory. */

import type { Plan } from '../../shared/plan.ts';
import type { Simulation } from '../run/api.ts';
import { capital, type Sentence, withNames } from '../sentence/wording.ts';
import type { Chain, Reason } from '../why/answer.ts';
import { whyAbout } from '../why/answer-about.ts';
import type { WhyQuestion } from '../why/question.ts';
import { whyLed } from '../why/why-led.ts';
import { sayWhy, type WhyWords } from './why.ts';
import { WIRE_CLAUSES } from './why-wire.ts';

/** Throws if the question is about something that is not on this bench. */
export function explain(sim: Simulation, question: WhyQuestion): WhyWords {
  const { plan } = sim.circuit;
  return question.about === 'led' ? sayWhy(whyLed(sim, question.id, question.supposed), plan) : sayChain(whyAbout(sim, question), plan);
}

function sayChain([first, ...others]: Chain, plan: Plan): WhyWords {
  const { says, figures } = inWords(first, plan);
  return { headline: says, note: figures, steps: others.map((r) => inWords(r, plan)) };
}

/** Throws for a reason that has no words. */
function inWords(reason: Reason, plan: Plan): { readonly says: Sentence; readonly figures: string } {
  const words = WIRE_CLAUSES[reason.code];
  if (!words) throw new Error(`no words for the reason ${reason.code}`);
  const { says, figures = '' } = words(reason);
  const [first = '', ...rest] = withNames(says, plan);
  return { says: [capital(first), ...rest], figures };
}
