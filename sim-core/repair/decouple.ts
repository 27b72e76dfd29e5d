/** A chip without a capacitor: one between the nearest free holes of its supply pin's and its ground pin's metal. */
import { capacitor } from '../parts/capacitor.ts';
import type { Curing } from './fix.ts';
import { between, freeBeside, freeOn, legOf, nearestPair } from './free-holes.ts';

export const decouple: Curing = (about) => {
  const [what, supply, ground] = about.finding.at;
  const [plus, minus] = [legOf(about, supply), legOf(about, ground)];
  if (!what || !plus || !minus) return [];
  const farads = Number(about.finding.data.cure);
  const pair = nearestPair(freeBeside(about, plus), freeOn(about, about.circuit.netOf(minus)));
  const change = pair && between(about, capacitor.id, { farads }, pair);
  return change ? [{ deed: { does: 'decouple', what, farads }, change }] : [];
};
