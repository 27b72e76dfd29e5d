/** A fix: what removes a finding in one act, as a change of the plan, and the words of its button. */
import type { Change } from '../document/changes.ts';
import type { EditContext } from '../document/edits/edit-context.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Wording } from '../sentence/wording.ts';

export interface Fix {
  /** exactly what will be done: "Add 330 Ω in series with LED4" */
  readonly says: Wording;
  readonly change: Change;
}

/** The bench that is to be fixed, and what its plan may be edited with. */
export interface FixBench {
  readonly circuit: Circuit;
  readonly context: EditContext;
}
