/** Which findings have a cure that the bench can make in one act. */
import { railHalfNotJoined } from '../findings/board/rail-half-not-joined.ts';
import { railNotFed } from '../findings/board/rail-not-fed.ts';
import { capacitorReversed } from '../findings/capacitor/reversed.ts';
import { noDecoupling } from '../findings/chip/no-decoupling.ts';
import { chipNoSupply } from '../findings/chip/no-supply.ts';
import type { Finding } from '../findings/finding.ts';
import { inputFloating } from '../findings/input/floating.ts';
import { lampNoLimit } from '../findings/lamp/no-limit.ts';
import { lampOverCurrent } from '../findings/lamp/over-current.ts';
import { lampReversed } from '../findings/lamp/reversed.ts';
import { levelNotGuaranteed } from '../findings/pin/level-not-guaranteed.ts';
import { pinOverCurrent } from '../findings/pin/over-current.ts';
import { suppliesNotJoined } from '../findings/supply/not-joined.ts';
import { kinds } from '../parts/shapes.ts';
import type { Circuit } from '../run/circuit.ts';
import type { Cure, Curing } from './cure.ts';
import { decouple } from './decouple.ts';
import { holdEitherWay, holdHigh } from './hold.ts';
import { limitLamp, limitLampOfPin } from './in-series.ts';
import { feedChip, feedRail, joinHalves, joinSupplies } from './join.ts';
import { turnRound } from './turn-round.ts';

export const CURES: ReadonlyMap<string, Curing> = new Map([
  [railHalfNotJoined.code, joinHalves],
  [railNotFed.code, feedRail],
  [capacitorReversed.code, turnRound],
  [noDecoupling.code, decouple],
  [chipNoSupply.code, feedChip],
  [inputFloating.code, holdEitherWay],
  [lampNoLimit.code, limitLamp],
  [lampOverCurrent.code, limitLamp],
  [lampReversed.code, turnRound],
  [levelNotGuaranteed.code, holdHigh],
  [pinOverCurrent.code, limitLampOfPin],
  [suppliesNotJoined.code, joinSupplies],
]);

/** What would mend this finding on this bench, the best first. */
export function curesFor(finding: Finding, circuit: Circuit): readonly Cure[] {
  const { plan, layout } = circuit;
  return CURES.get(finding.code)?.({ finding, circuit, ground: { plan, layout, kinds } }) ?? [];
}
