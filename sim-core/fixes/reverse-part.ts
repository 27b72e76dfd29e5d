/** A part with two legs that is the wrong way round: its legs change holes. */
import { flip } from '../document/edits/rotate.ts';
import { type Ref, say } from '../sentence/wording.ts';
import type { Fix, FixBench } from './fix.ts';

export function reversePart({ context }: FixBench, part: Ref): readonly Fix[] {
  const change = flip(context, [part.id]);
  return change.ok ? [{ says: say`Reverse ${part}`, change: change.value }] : [];
}
