/** A part on two wires that stands the wrong way round: its legs change holes. */
import { flip } from '../document/edits/rotate.ts';
import type { Curing } from './fix.ts';

export const reversePart: Curing = ({ finding, ground }) => {
  const [what] = finding.at;
  const change = what && flip(ground, [what.id]);
  return what && change?.ok ? [{ deed: { does: 'turn-round', what }, change: change.value }] : [];
};
