/** A finding: one true statement about the plan or the run, as data. Words are made elsewhere, last. */

/** harm: may damage; broken: will not work; luck: works only typically; hint: better otherwise. */
export type Severity = 'harm' | 'broken' | 'luck' | 'hint';
export const SEVERITIES: readonly Severity[] = ['harm', 'broken', 'luck', 'hint'];

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
