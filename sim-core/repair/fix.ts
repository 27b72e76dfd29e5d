/** A cure: what mends a finding in one act, as a change of the plan, and what it does, as data for its words. */
import type { Change } from '../document/changes.ts';
import type { EditContext } from '../document/edits/edit-context.ts';
import type { Finding } from '../findings/finding.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Ref } from '../sentence/ref.ts';

export type Deed =
  | { readonly does: 'hold'; readonly what: Ref; readonly high: boolean; readonly ohms: number }
  | { readonly does: 'in-series'; readonly what: Ref; readonly ohms: number }
  | { readonly does: 'exchange'; readonly what: Ref; readonly ohms: number }
  | { readonly does: 'join'; readonly from: string; readonly to: string }
  | { readonly does: 'feed'; readonly what: Ref }
  | { readonly does: 'decouple'; readonly what: Ref; readonly farads: number }
  | { readonly does: 'turn-round'; readonly what: Ref };

export interface FixRule {
  readonly deed: Deed;
  readonly change: Change;
}

/** A finding on the bench it is about. */
export interface FixContext {
  readonly finding: Finding;
  readonly circuit: Circuit;
  readonly ground: EditContext;
}

/** The cures of one rule's findings, the best first; none where the bench has no room for one, or where only a person can say what was meant. */
export type Curing = (about: FixContext) => readonly FixRule[];
