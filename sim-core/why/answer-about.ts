/** The answer to a why about a pin, a wire or a memory: what is so, then what is behind it, link by link. */
import { makeScene } from '../findings/rule-context.ts';
import type { Simulation } from '../run/api.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import type { Chain } from './answer.ts';
import { whyWrite } from './last-write.ts';
import { whyPinLevel } from './pin-level.ts';
import type { WhyQuestion } from './question.ts';
import { whyRow } from './row.ts';
import { whyWire } from './wire-current.ts';

/** Every question but that about an LED's look, which whyLed answers. */
export type QuestionAbout = Exclude<WhyQuestion, { readonly about: 'led' }>;

/** Throws if it is about something that is not on this bench. */
export function whyAbout(sim: Simulation, question: QuestionAbout): Chain {
  const scene = makeScene(sim.circuit, sim.readings());
  switch (question.about) {
    case 'pin':
      return whyPinLevel({ sim, scene, asked: [] }, question.id);
    case 'write':
      return whyWrite({ sim, scene, asked: [] }, memory(sim, question.id));
    case 'row':
      return whyRow({ sim, scene, asked: [] }, memory(sim, question.id), question.row);
    case 'wire':
      return whyWire(scene, question.id);
  }
}

function memory({ circuit }: Simulation, id: string): ChipSite {
  const chip = circuit.chipById.get(id);
  if (!chip?.spec.word) throw new Error(`no memory ${id} on this bench`);
  return chip;
}
