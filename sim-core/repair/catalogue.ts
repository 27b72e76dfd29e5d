/** Which findings have a cure that the bench can make in one act. */

import type { Finding } from '../findings/finding.ts';
import { railHalfNotConnected } from '../findings/rules/board/rail-half-not-connected.ts';
import { railNotConnected } from '../findings/rules/board/rail-not-connected.ts';
import { capacitorReversed } from '../findings/rules/capacitor/reversed.ts';
import { noDecoupling } from '../findings/rules/chip/no-decoupling.ts';
import { chipNoSupply } from '../findings/rules/chip/no-supply.ts';
import { inputFloating } from '../findings/rules/input/floating.ts';
import { ledNoSeriesResistor } from '../findings/rules/led/no-series-resistor.ts';
import { ledOverCurrent } from '../findings/rules/led/over-current.ts';
import { ledReversed } from '../findings/rules/led/reversed.ts';
import { levelNotGuaranteed } from '../findings/rules/pin/level-not-guaranteed.ts';
import { pinOverCurrent } from '../findings/rules/pin/over-current.ts';
import { groundsNotConnected } from '../findings/rules/supply/grounds-not-connected.ts';
import { partLookup } from '../parts/footprint-index.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { decouple } from './decouple.ts';
import type { Curing, FixRule } from './fix.ts';
import { feedChip, feedRail, joinHalves, joinSupplies } from './join.ts';
import { holdEitherWay, holdHigh } from './pull-resistor.ts';
import { reversePart } from './reverse-part.ts';
import { limitLed, limitLedOfPin } from './series-resistor.ts';

export const FIX_RULES: ReadonlyMap<string, Curing> = new Map([
  [railHalfNotConnected.code, joinHalves],
  [railNotConnected.code, feedRail],
  [capacitorReversed.code, reversePart],
  [noDecoupling.code, decouple],
  [chipNoSupply.code, feedChip],
  [inputFloating.code, holdEitherWay],
  [ledNoSeriesResistor.code, limitLed],
  [ledOverCurrent.code, limitLed],
  [ledReversed.code, reversePart],
  [levelNotGuaranteed.code, holdHigh],
  [pinOverCurrent.code, limitLedOfPin],
  [groundsNotConnected.code, joinSupplies],
]);

/** What would mend this finding on this bench, the best first. */
export function fixesFor(finding: Finding, circuit: Circuit): readonly FixRule[] {
  const { plan, layout } = circuit;
  return FIX_RULES.get(finding.code)?.({ finding, circuit, ground: { plan, layout, kinds: partLookup } }) ?? [];
}
