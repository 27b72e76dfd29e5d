/** A rule's examples: a bench where it finds something and one where it does not. Only tests read them; no bundle holds them. */
import type { Action } from '../run/action.ts';

/** A small bench in the text notation, with what is done on it: the actions of one inner list begin at the same moment, then everything comes to rest. */
export interface Example {
  readonly bench: string;
  readonly script?: readonly (readonly Action[])[];
  /** so long after that [s] */
  readonly waits?: number;
}

/** A rule file exports one of these beside its rule, as a function, so that a build that reads the rule alone leaves it out. */
export interface RuleExamples {
  /** `points`: the id that the finding must name first; `none`: why no bench shows it */
  readonly bad: (Example & { readonly points: string }) | { readonly none: string };
  readonly good: Example;
}
