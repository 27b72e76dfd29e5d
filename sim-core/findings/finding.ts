/** A finding: one true statement about the plan or the run, as data. Its rule puts it into words. */
import type { Ref } from '../sentence/wording.ts';

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

/** One true statement about a bench, as data of the rule that made it. */
export interface Finding<Data extends object = object> {
  /** the rule's code: 'GROUP/RULE' */
  readonly code: string;
  readonly severity: Severity;
  /** what it is about, the most important first; never empty, but for a bench as a whole */
  readonly at: readonly Ref[];
  /** two findings with one key are one finding, seen at two moments or with two figures */
  readonly key: string;
  /** what the rule has to say, by name: references, figures in SI units */
  readonly data: Data;
  /** the switch positions or the press that show it, where they are not the plan's own: 'S1 at 10110' */
  readonly when?: string;
  /** others of which the same is to be said, in the same words; `at` has their places too */
  readonly alike?: readonly Finding[];
}
