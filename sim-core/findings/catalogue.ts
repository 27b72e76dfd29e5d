/** Every rule there is, one line each. A test fails if a rule file is not listed here. */
import { benchNeverRests } from './bench/never-rests.ts';
import { noOperatingPoint } from './bench/no-operating-point.ts';
import { railHalfNotJoined } from './board/rail-half-not-joined.ts';
import { railNotFed } from './board/rail-not-fed.ts';
import { capacitorOverVoltage } from './capacitor/over-voltage.ts';
import { capacitorReversed } from './capacitor/reversed.ts';
import { noDecoupling } from './chip/no-decoupling.ts';
import { chipNoSupply } from './chip/no-supply.ts';
import { packageOverCurrent } from './chip/package-over-current.ts';
import { supplyDip } from './chip/supply-dip.ts';
import { supplyOutOfRange } from './chip/supply-out-of-range.ts';
import { supplyReversed } from './chip/supply-reversed.ts';
import { inputBetweenLevels } from './input/between-levels.ts';
import { inputFloating } from './input/floating.ts';
import { lampDim } from './lamp/dim.ts';
import { litOnlyTypically } from './lamp/lit-only-typically.ts';
import { lampNoLimit } from './lamp/no-limit.ts';
import { lampOverCurrent } from './lamp/over-current.ts';
import { lampReverseOverVoltage } from './lamp/reverse-over-voltage.ts';
import { lampReversed } from './lamp/reversed.ts';
import { cellWorn } from './memory/cell-worn.ts';
import { notAsWanted } from './memory/not-as-wanted.ts';
import { notErased } from './memory/not-erased.ts';
import { otherPage } from './memory/other-page.ts';
import { pulseNotGuaranteed } from './memory/pulse-not-guaranteed.ts';
import { writeIgnored } from './memory/write-ignored.ts';
import { writePulseLong } from './memory/write-pulse-long.ts';
import { writePulseShort } from './memory/write-pulse-short.ts';
import { writeTime } from './memory/write-time.ts';
import { writeUncertain } from './memory/write-uncertain.ts';
import { outputsFighting } from './net/outputs-fighting.ts';
import { bothLegsInOneRow } from './part/both-legs-in-one-row.ts';
import { partDamaged } from './part/damaged.ts';
import { legAlone } from './part/leg-alone.ts';
import { levelNotGuaranteed } from './pin/level-not-guaranteed.ts';
import { pinOverCurrent } from './pin/over-current.ts';
import { pinOverVoltage } from './pin/over-voltage.ts';
import { overPower } from './resistor/over-power.ts';
import type { Rule } from './rule.ts';
import { currentLimit } from './supply/current-limit.ts';
import { suppliesNotJoined } from './supply/not-joined.ts';
import { oneSideOnly } from './switch/one-side-only.ts';
import { poleShortsSupply } from './switch/pole-shorts-supply.ts';

export const RULES: readonly Rule[] = [
  benchNeverRests,
  noOperatingPoint,
  railHalfNotJoined,
  railNotFed,
  capacitorOverVoltage,
  capacitorReversed,
  noDecoupling,
  chipNoSupply,
  packageOverCurrent,
  supplyDip,
  supplyOutOfRange,
  supplyReversed,
  inputBetweenLevels,
  inputFloating,
  lampDim,
  litOnlyTypically,
  lampNoLimit,
  lampOverCurrent,
  lampReverseOverVoltage,
  lampReversed,
  cellWorn,
  notAsWanted,
  notErased,
  otherPage,
  pulseNotGuaranteed,
  writeIgnored,
  writePulseLong,
  writePulseShort,
  writeTime,
  writeUncertain,
  outputsFighting,
  bothLegsInOneRow,
  partDamaged,
  legAlone,
  levelNotGuaranteed,
  pinOverCurrent,
  pinOverVoltage,
  overPower,
  currentLimit,
  suppliesNotJoined,
  oneSideOnly,
  poleShortsSupply,
];
