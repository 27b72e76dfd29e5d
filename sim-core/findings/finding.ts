/** A finding: one true statement about the plan or the run, as data. Words are made elsewhere, last. */

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

/** Something on the bench that can be pointed at. `id`: 'U1', 'U1.20' (pin by number), 'S1.3' (pole, from 1), 'W7', 'a12', 'D3' or 'DS1.a' (LED), 'B1'. */
export interface Ref {
  readonly kind: 'part' | 'pin' | 'pole' | 'wire' | 'point' | 'led' | 'board';
  readonly id: string;
}

export interface Finding {
  /** the rule's file: 'led/over-current' */
  readonly code: string;
  readonly severity: Severity;
  /** what it is about, the most important first; never empty */
  readonly at: readonly Ref[];
  /** figures in SI units and names, as the rule's words need them */
  readonly data: Readonly<Record<string, number | string>>;
}
