/** Every rule there is, one line each. A test fails if a rule file is not listed here. */

import type { Rule } from './rule.ts';
import { noOperatingPoint } from './rules/bench/no-operating-point.ts';
import { onlyAsPrinted } from './rules/bench/only-as-printed.ts';
import { benchOscillates } from './rules/bench/oscillates.ts';
import { railHalfNotConnected } from './rules/board/rail-half-not-connected.ts';
import { railNotConnected } from './rules/board/rail-not-connected.ts';
import { capacitorOverVoltage } from './rules/capacitor/over-voltage.ts';
import { capacitorReversed } from './rules/capacitor/reversed.ts';
import { enableAtWrongRail } from './rules/chip/enable-wrong-rail.ts';
import { noDecoupling } from './rules/chip/no-decoupling.ts';
import { chipNoSupply } from './rules/chip/no-supply.ts';
import { packageOverCurrent } from './rules/chip/package-over-current.ts';
import { supplyDip } from './rules/chip/supply-dip.ts';
import { supplyOutOfRange } from './rules/chip/supply-out-of-range.ts';
import { supplyReversed } from './rules/chip/supply-reversed.ts';
import { betweenCurrents } from './rules/coil/between-currents.ts';
import { flybackDiodeReversed } from './rules/coil/flyback-diode-reversed.ts';
import { noFlybackDiode } from './rules/coil/no-flyback-diode.ts';
import { ownContact } from './rules/coil/own-contact.ts';
import { inputBetweenLevels } from './rules/input/between-levels.ts';
import { inputFloating } from './rules/input/floating.ts';
import { inputUnusedOpen } from './rules/input/unused-open.ts';
import { ledCurrentNotGuaranteed } from './rules/led/current-not-guaranteed.ts';
import { ledDim } from './rules/led/dim.ts';
import { ledNoSeriesResistor } from './rules/led/no-series-resistor.ts';
import { ledOverCurrent } from './rules/led/over-current.ts';
import { ledReverseOverVoltage } from './rules/led/reverse-over-voltage.ts';
import { ledReversed } from './rules/led/reversed.ts';
import { bounceWritesAgain } from './rules/memory/bounce-writes-again.ts';
import { cellWorn } from './rules/memory/cell-worn.ts';
import { levelNoPulse } from './rules/memory/level-no-pulse.ts';
import { notAsWanted } from './rules/memory/not-as-wanted.ts';
import { notErased } from './rules/memory/not-erased.ts';
import { otherPage } from './rules/memory/other-page.ts';
import { pressWritesNothing } from './rules/memory/press-writes-nothing.ts';
import { pulseNotGuaranteed } from './rules/memory/pulse-not-guaranteed.ts';
import { setupOrHold } from './rules/memory/setup-or-hold.ts';
import { writeEnableLow } from './rules/memory/write-enable-low.ts';
import { writeIgnored } from './rules/memory/write-ignored.ts';
import { writePulseLong } from './rules/memory/write-pulse-long.ts';
import { writePulseShort } from './rules/memory/write-pulse-short.ts';
import { writeUndefined } from './rules/memory/write-undefined.ts';
import { busContention } from './rules/net/bus-contention.ts';
import { bothLegsInOneRow } from './rules/part/both-legs-in-one-row.ts';
import { partDamaged } from './rules/part/damaged.ts';
import { legNotConnected } from './rules/part/leg-not-connected.ts';
import { notConnectedYet } from './rules/part/not-connected-yet.ts';
import { partOverPower } from './rules/part/over-power.ts';
import { levelNotGuaranteed } from './rules/pin/level-not-guaranteed.ts';
import { pinOverCurrent } from './rules/pin/over-current.ts';
import { pinOverVoltage } from './rules/pin/over-voltage.ts';
import { currentLimit } from './rules/supply/current-limit.ts';
import { groundsNotConnected } from './rules/supply/grounds-not-connected.ts';
import { bothSidesOneNet } from './rules/switch/both-sides-one-net.ts';
import { bouncesOnClock } from './rules/switch/bounces-on-clock.ts';
import { oneSideOnly } from './rules/switch/one-side-only.ts';
import { poleShortsSupply } from './rules/switch/pole-shorts-supply.ts';
import { notGoneThrough } from './rules/table/not-gone-through.ts';
import { rowsWrong } from './rules/table/rows-wrong.ts';

/** Every rule, in the order in which they run. */
export const RULES: readonly Rule[] = [
  onlyAsPrinted,
  benchOscillates,
  noOperatingPoint,
  railHalfNotConnected,
  railNotConnected,
  capacitorOverVoltage,
  capacitorReversed,
  noDecoupling,
  enableAtWrongRail,
  chipNoSupply,
  packageOverCurrent,
  supplyDip,
  supplyOutOfRange,
  supplyReversed,
  noFlybackDiode,
  flybackDiodeReversed,
  ownContact,
  betweenCurrents,
  inputBetweenLevels,
  inputFloating,
  inputUnusedOpen,
  ledDim,
  ledCurrentNotGuaranteed,
  ledNoSeriesResistor,
  ledOverCurrent,
  ledReverseOverVoltage,
  ledReversed,
  bounceWritesAgain,
  cellWorn,
  notAsWanted,
  notErased,
  otherPage,
  pulseNotGuaranteed,
  pressWritesNothing,
  levelNoPulse,
  writeEnableLow,
  writeIgnored,
  writePulseLong,
  writePulseShort,
  setupOrHold,
  writeUndefined,
  busContention,
  bothLegsInOneRow,
  partDamaged,
  notConnectedYet,
  legNotConnected,
  levelNotGuaranteed,
  pinOverCurrent,
  pinOverVoltage,
  partOverPower,
  currentLimit,
  groundsNotConnected,
  bothSidesOneNet,
  bouncesOnClock,
  oneSideOnly,
  poleShortsSupply,
  rowsWrong,
  notGoneThrough,
];
