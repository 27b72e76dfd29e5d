/** Every answer to a why in words: that about an LED, and those about a wire, a pin or a memory. */

import type { Plan } from '../../shared/plan.ts';
import { sayFinding } from '../findings/say-finding.ts';
import type { Simulation } from '../run/api.ts';
import { allTurns } from '../run/slices.ts';
import type { WhyQuestion } from '../sentence/question.ts';
import { capital, type Sentence, withNames } from '../sentence/wording.ts';
import type { Chain, Link } from '../why/answer.ts';
import { whyAbout } from '../why/answer-about.ts';
import { whyLedInTurns } from '../why/why-led.ts';
import { sayWhy, stepOf, type WhyWords } from './why.ts';
import { FLICKER_CLAUSES } from './why-flicker.ts';
import { PIN_CLAUSES } from './why-pin.ts';
import { ROW_CLAUSES } from './why-row.ts';
import { WIRE_CLAUSES } from './why-wire.ts';
import { WRITE_CLAUSES } from './why-write.ts';

/** Throws if the question is about something that is not on this bench. */
export const explain = (sim: Simulation, question: WhyQuestion): WhyWords => allTurns(explainInTurns(sim, question));

/** The same, in turns: an answer about an LED yields its chain of causes at once, then nothing between edits that are tried. */
export function* explainInTurns(sim: Simulation, question: WhyQuestion): Generator<WhyWords | undefined, WhyWords> {
  const { plan } = sim.circuit;
  if (question.about !== 'led') return sayChain(whyAbout(sim, question), plan);
  for (const turns = whyLedInTurns(sim, question.id, question.supposed); ; ) {
    const { done, value } = turns.next();
    if (done) return sayWhy(value, plan);
    yield value && sayWhy(value, plan);
  }
}

function sayChain([first, ...others]: Chain, plan: Plan): WhyWords {
  const { says, figures } = inWords(first, plan);
  return { headline: says, note: figures, steps: others.map((r) => inWords(r, plan)) };
}

/** Throws for a reason that has no words. */
function inWords(link: Link, plan: Plan): { readonly says: Sentence; readonly figures: string } {
  if ('severity' in link) return { says: sayFinding(link, plan), figures: '' };
  const words =
    WIRE_CLAUSES[link.code] ?? PIN_CLAUSES[link.code] ?? WRITE_CLAUSES[link.code] ?? ROW_CLAUSES[link.code] ?? FLICKER_CLAUSES[link.code];
  if (!words) return stepOf(link, plan);
  const { says, figures = '' } = words(link);
  const [first = '', ...rest] = withNames(says, plan);
  return { says: [capital(first), ...rest], figures };
}
