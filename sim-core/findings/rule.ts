/** The contract of a rule: one file that says what it looks for, in what, and a bench where it is found and one where it is not. */
import type { Plan } from '../../shared/plan.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Action } from '../run/action.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Marginals } from '../tolerance/marginal.ts';
import type { Finding, Severity } from './finding.ts';
import type { RuleContext } from './rule-context.ts';

/** A finding before it has its code. Without a severity of its own it has the rule's. */
export type Remark = Omit<Finding, 'code' | 'severity'> & { readonly severity?: Severity };

/** A small bench in the text notation, with what hands do to it: the acts of one inner list begin at the same moment, then everything comes to rest. */
export interface Example {
  readonly bench: string;
  readonly script?: readonly (readonly Action[])[];
  /** so long after that [s] */
  readonly waits?: number;
}

interface About {
  /** the file's path below findings/, without its ending: 'memory/write-pulse-short' */
  readonly code: string;
  readonly severity: Severity;
  /** `points`: the id that the finding must name first; `none`: why no bench shows it */
  readonly bad: (Example & { readonly points: string }) | { readonly none: string };
  readonly good: Example;
}

/** What chips have reported so far, oldest first. */
interface Log {
  readonly circuit: Circuit;
  readonly events: readonly ChipEvent[];
}

/** What the memories hold now. */
interface Stored {
  readonly circuit: Circuit;
  readonly memories: Plan['memories'];
}

/**
 * A rule reads one of five things, and is asked again only when that has changed: the wiring (whatever the switches and the voltages),
 * the present moment, the log of what chips reported, what the memories hold, or, only when a plan is rehearsed, what is marginal with other specimens of its parts.
 */
export type Rule = About &
  (
    | { readonly reads: 'wiring'; look(circuit: Circuit): readonly Remark[] }
    | { readonly reads: 'moment'; look(scene: RuleContext): readonly Remark[] }
    | { readonly reads: 'log'; look(log: Log): readonly Remark[] }
    | { readonly reads: 'stored'; look(stored: Stored): readonly Remark[] }
    | { readonly reads: 'marginal'; look(marginals: Marginals): readonly Remark[] }
  );

export const defineRule = <R extends Rule>(rule: R): R => rule;
