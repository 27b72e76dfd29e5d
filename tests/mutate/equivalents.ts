/** Mutants after which the program does the same, each with the reason: no test can notice them, so the report counts them apart. */
import { type Mutant, mutated } from './mutant.ts';

export interface Equivalent {
  readonly path: string;
  /** the line that it is on, and what the mutant makes of it, without the spaces at their ends */
  readonly line: string;
  readonly becomes: string;
  readonly because: string;
}

export const EQUIVALENTS: readonly Equivalent[] = [
  {
    path: 'sim-core/run/digital/event-queue.ts',
    line: 'for (let child = 2 * at + 1; child <= 2 * at + 2 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    becomes:
      'for (let child = 2 * at + 1; child <= 2 * at + 3 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    because: 'a third place looked at is below the place beside: if it is the least, the heap is in order after the exchange too',
  },
  {
    path: 'sim-core/run/circuit/site-builder.ts',
    line: 'const leg = placed.legs.find((l) => l.pin === pin);',
    becomes: 'const leg = placed.legs.findLast((l) => l.pin === pin);',
    because: 'the pins of a part have different names',
  },
];

/** The entry that a mutant is, if it is one. `text`: of the mutant's file. */
export function equivalentOf(m: Mutant, text: string): Equivalent | undefined {
  const lineIn = (of: string) => of.split('\n')[m.line - 1]?.trim();
  const line = lineIn(text);
  return EQUIVALENTS.find((e) => e.path === m.path && e.line === line && e.becomes === lineIn(mutated(text, m)));
}
