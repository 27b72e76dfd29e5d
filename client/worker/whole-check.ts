/** The check of a whole bench, as its page says it: with the supply on, at every setting of the switches, with every button pressed. */
import type { Plan } from '../../shared/plan.ts';
import { checkBench, done, type Outcome, simulate } from '../../sim-core/index.ts';
import { makeFindingTexts } from './finding-text.ts';
import type { SaidFinding } from './protocol.ts';

/** Fails with `plan/…`. */
export function wholeCheck(plan: Plan): Outcome<readonly SaidFinding[]> {
  const checked = checkBench(plan);
  if (!checked.ok) return checked;
  const sim = simulate(plan, { still: true, bounce: false });
  if (!sim.ok) return sim;
  for (const texts = makeFindingTexts().say(checked.value.findings, sim.value.circuit, false); ; ) {
    const said = texts.next();
    if (said.done) return done(said.value);
  }
}
