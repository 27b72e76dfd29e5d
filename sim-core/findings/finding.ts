/** A finding: one true statement about the plan or the run, as data. Words are made elsewhere, last. */
import type { Ref } from '../sentence/ref.ts';

/** damage-risk: may damage a part; fault: does not work; marginal: works with typical parts only; suggestion: works, and could be better. */
export type Severity = 'damage-risk' | 'fault' | 'marginal' | 'suggestion';
/** The worst first. */
export const SEVERITIES: readonly Severity[] = ['damage-risk', 'fault', 'marginal', 'suggestion'];
/** As a person reads them. */
export const SEVERITY_NAMES: Readonly<Record<Severity, string>> = {
  'damage-risk': 'Damage risk',
  fault: 'Fault',
  marginal: 'Marginal',
  suggestion: 'Suggestion',
};

export interface Finding {
  /** the rule's file: 'led/over-current' */
  readonly code: string;
  readonly severity: Severity;
  /** what it is about, the most important first; never empty */
  readonly at: readonly Ref[];
  /** figures in SI units and names, as the rule's words need them */
  readonly data: Readonly<Record<string, number | string>>;
}
