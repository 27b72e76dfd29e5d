/** How rules point at things: references made from sites, legs and nets. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import type { ChipSite, LedSite, Placed } from '../run/circuit/sites.ts';
import type { Ref } from '../sentence/ref.ts';

export const toPart = (p: Placed): Ref => ({ kind: 'part', id: p.part.id });
export const toPin = (leg: Leg): Ref => ({ kind: 'pin', id: `${leg.part.id}.${leg.pin}` });
export const toLed = (site: LedSite): Ref => ({ kind: 'led', id: site.id });
export const toWire = (id: string): Ref => ({ kind: 'wire', id });

/** A net has no name of its own: its first leg stands for it, or a wire. */
export function toNet(net: Net | undefined): readonly Ref[] {
  const [leg] = net?.legs ?? [];
  const [end] = net?.ends ?? [];
  return leg ? [toPin(leg)] : end ? [toWire(end.wire.id)] : [];
}

/** The leg of a chip's pin, by the pin's number. */
export const legOfPin = (site: ChipSite, pin: string): Leg | undefined => site.placed.legs.find((l) => l.pin === pin);

/** Each thing once, in the order of its first mention. */
export function distinct(refs: readonly Ref[]): Ref[] {
  const seen = new Set<string>();
  return refs.filter((r) => {
    const key = `${r.kind} ${r.id}`;
    return !seen.has(key) && seen.add(key);
  });
}
