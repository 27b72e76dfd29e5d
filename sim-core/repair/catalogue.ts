/** Which findings have a cure that the bench can make in one act. */

import type { Finding } from '../findings/finding.ts';
import { railHalfNotJoined } from '../findings/rules/board/rail-half-not-joined.ts';
import { railNotFed } from '../findings/rules/board/rail-not-fed.ts';
import { capacitorReversed } from '../findings/rules/capacitor/reversed.ts';
import { noDecoupling } from '../findings/rules/chip/no-decoupling.ts';
import { chipNoSupply } from '../findings/rules/chip/no-supply.ts';
import { inputFloating } from '../findings/rules/input/floating.ts';
import { ledNoLimit } from '../findings/rules/led/no-limit.ts';
import { ledOverCurrent } from '../findings/rules/led/over-current.ts';
import { ledReversed } from '../findings/rules/led/reversed.ts';
import { levelNotGuaranteed } from '../findings/rules/pin/level-not-guaranteed.ts';
import { pinOverCurrent } from '../findings/rules/pin/over-current.ts';
import { suppliesNotJoined } from '../findings/rules/supply/not-joined.ts';
import { partLookup } from '../parts/footprint-index.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { decouple } from './decouple.ts';
import type { Curing, FixRule } from './fix.ts';
import { feedChip, feedRail, joinHalves, joinSupplies } from './join.ts';
import { holdEitherWay, holdHigh } from './pull-resistor.ts';
import { reversePart } from './reverse-part.ts';
import { limitLed, limitLedOfPin } from './series-resistor.ts';

export const FIX_RULES: ReadonlyMap<string, Curing> = new Map([
  [railHalfNotJoined.code, joinHalves],
  [railNotFed.code, feedRail],
  [capacitorReversed.code, reversePart],
  [noDecoupling.code, decouple],
  [chipNoSupply.code, feedChip],
  [inputFloating.code, holdEitherWay],
  [ledNoLimit.code, limitLed],
  [ledOverCurrent.code, limitLed],
  [ledReversed.code, reversePart],
  [levelNotGuaranteed.code, holdHigh],
  [pinOverCurrent.code, limitLedOfPin],
  [suppliesNotJoined.code, joinSupplies],
]);

/** What would mend this finding on this bench, the best first. */
export function fixesFor(finding: Finding, circuit: Circuit): readonly FixRule[] {
  const { plan, layout } = circuit;
  return FIX_RULES.get(finding.code)?.({ finding, circuit, ground: { plan, layout, kinds: partLookup } }) ?? [];
}
