/** How the supply and the switches of a bench are set, in a few words: "supply on, switches 01100". */
import type { PlacedPart } from './bench-model.ts';

export interface SwitchState {
  readonly specimens: readonly PlacedPart[];
  readonly supplies: readonly { readonly on: boolean }[];
  /** closed poles by part, as readings have them */
  readonly switches: Readonly<Record<string, readonly boolean[]>>;
}

/** Poles from the first one on, 1 closed; switches by their ids where there are several. Buttons are not set, so they are left out. */
export function benchStateSays({ specimens, supplies, switches }: SwitchState): string {
  const on = supplies.filter((s) => s.on).length;
  const word = supplies.length > 1 ? 'supplies' : 'supply';
  const supply =
    supplies.length === 0
      ? 'no supply'
      : on === supplies.length
        ? `${word} on`
        : on === 0
          ? `${word} off`
          : `${on} of ${supplies.length} supplies on`;
  const set = specimens.flatMap(({ part, contacts }) => {
    const poles = contacts.filter((c) => !c.momentary);
    return poles.length === 0 ? [] : [{ id: part.id, bits: poles.map((c) => (switches[part.id]?.[c.pole] ? '1' : '0')).join('') }];
  });
  const [only, ...more] = set;
  if (!only) return supply;
  return `${supply}, ${more.length === 0 ? `switches ${only.bits}` : set.map((s) => `${s.id} ${s.bits}`).join(', ')}`;
}
