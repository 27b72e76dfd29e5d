/** A why as a person asks it, and its answer as plain lines: the headline with its note, then each step with its figures. */
import { expect } from 'vitest';
import { explain, plain, readQuestion, type Simulation } from '../../sim-core/index.ts';

/** A running bench as what may be asked about it is read. */
export const askable = ({ circuit }: Simulation) => ({ plan: circuit.plan, leds: circuit.leds.map((l) => l.id) });

/** Fails with the sentence that says what can be asked instead. */
export function askWhy(sim: Simulation, text: string): readonly string[] {
  const question = readQuestion(text, askable(sim));
  if (!question.ok) throw new Error(question.failure.says);
  const { headline, note, steps } = explain(sim, question.value);
  const said = [`${plain(headline)} ${note}`, ...steps.map((s) => `${plain(s.says)} ${s.figures}`)].map((l) => l.trim());
  for (const line of said) expect(line).not.toMatch(/undefined(?! \(X\))|NaN|\[object|Infinity/);
  return said;
}
