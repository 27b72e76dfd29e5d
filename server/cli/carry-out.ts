/** One word of a script that a hand does: acts, a press of a button, a wait. */
import { done, FINGER, type Outcome, type Simulation } from '../../sim-core/index.ts';
import type { ScriptStep } from './script.ts';

/** Nothing happens for a word that asks. */
export function carryOut(sim: Pick<Simulation, 'act' | 'wait'>, step: ScriptStep): Outcome<void> {
  if (step.do === 'wait') sim.wait(step.seconds);
  if (step.do === 'acts')
    for (const act of step.acts) {
      const did = sim.act(act);
      if (!did.ok) return did;
    }
  if (step.do !== 'press') return done(undefined);
  const down = sim.act({ do: 'press', part: step.part });
  if (!down.ok) return down;
  sim.wait(FINGER);
  return sim.act({ do: 'release', part: step.part });
}
