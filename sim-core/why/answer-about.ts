/** The answer to a why about a pin, a wire or a memory: what is so, then what is behind it, link by link. */
import { makeScene } from '../findings/rule-context.ts';
import type { Simulation } from '../run/api.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import type { WhyQuestion } from '../sentence/question.ts';
import type { Chain, Reason } from './answer.ts';
import type { ExplanationQuestion } from './explanation-step.ts';
import { whyFlicker } from './flicker.ts';
import { whyWrite } from './last-write.ts';
import { levelOf, turns, whyPinLevel } from './pin-level.ts';
import { whyRow } from './row.ts';
import { whyWire } from './wire-current.ts';

/** Every question but that about an LED's look, which whyLed answers. */
export type QuestionAbout = Exclude<WhyQuestion, { readonly about: 'led' }>;

/** What holds a pin is named only where the pin has that level, and a pole only if the pin has another one with it the other way. Throws if it is about something that is not on this bench. */
export function whyAbout(sim: Simulation, question: QuestionAbout): Chain {
  const q: ExplanationQuestion = { sim, scene: makeScene(sim.circuit, sim.readings()), asked: [] };
  const [headline, ...others] = chainOf(q, question);
  return [headline, ...others.filter((l) => 'severity' in l || isSo(q, l))];
}

function isSo(q: ExplanationQuestion, reason: Reason): boolean {
  const { code, at, data } = reason;
  if (code !== 'pin-by-switch' && code !== 'pin-pulled') return true;
  const is = data.needed === 'high' ? 'L' : 'H';
  return levelOf(q.scene.readings, at[0]?.id) === is && (code === 'pin-pulled' || turns(q, reason));
}

function chainOf(q: ExplanationQuestion, question: QuestionAbout): Chain {
  switch (question.about) {
    case 'flicker':
      return whyFlicker(q, { kind: question.of, id: question.id });
    case 'pin':
      return whyPinLevel(q, question.id);
    case 'write':
      return whyWrite(q, memory(q.sim, question.id));
    case 'row':
      return whyRow(q, memory(q.sim, question.id), question.row);
    case 'wire':
      return whyWire(q.scene, question.id);
  }
}

function memory({ circuit }: Simulation, id: string): ChipSite {
  const chip = circuit.chipById.get(id);
  if (!chip?.spec.word) throw new Error(`no memory ${id} on this bench`);
  return chip;
}
