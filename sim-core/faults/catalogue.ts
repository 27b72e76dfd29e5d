/** Every kind of mistake there is, one line each. A test fails if a file of kinds/ is not listed here. */
import type { FaultKind } from './fault.ts';
import { addressReversed } from './kinds/address-reversed.ts';
import { addressSwapped } from './kinds/address-swapped.ts';
import { bitWrong } from './kinds/bit-wrong.ts';
import { byteErased } from './kinds/byte-erased.ts';
import { byteOfNextRow } from './kinds/byte-of-next-row.ts';
import { chipDead } from './kinds/chip-dead.ts';
import { chipOfOtherKind } from './kinds/chip-of-other-kind.ts';
import { chipRotated } from './kinds/chip-rotated.ts';
import { chipRowOff } from './kinds/chip-row-off.ts';
import { dataInverted } from './kinds/data-inverted.ts';
import { dataReversed } from './kinds/data-reversed.ts';
import { dataSwapped } from './kinds/data-swapped.ts';
import { displayPolarity } from './kinds/display-polarity.ts';
import { displayRotated } from './kinds/display-rotated.ts';
import { displayRowOff } from './kinds/display-row-off.ts';
import { enableWrongRail } from './kinds/enable-wrong-rail.ts';
import { imageElsewhere } from './kinds/image-elsewhere.ts';
import { imageErased } from './kinds/image-erased.ts';
import { ledDead } from './kinds/led-dead.ts';
import { ledMissing } from './kinds/led-missing.ts';
import { ledTurned } from './kinds/led-reversed.ts';
import { legRowOff } from './kinds/leg-row-off.ts';
import { legWrongRail } from './kinds/leg-wrong-rail.ts';
import { legsInOneRow } from './kinds/legs-in-one-row.ts';
import { memoriesExchanged } from './kinds/memories-exchanged.ts';
import { pinDead } from './kinds/pin-dead.ts';
import { poleBridged } from './kinds/pole-bridged.ts';
import { powerWireMissing } from './kinds/power-wire-missing.ts';
import { powerWireWrongRail } from './kinds/power-wire-wrong-rail.ts';
import { pullResistorMissing } from './kinds/pull-resistor-missing.ts';
import { railWireMissing } from './kinds/rail-wire-missing.ts';
import { railsSplit } from './kinds/rails-split.ts';
import { resistorTenfold } from './kinds/resistor-tenfold.ts';
import { resistorTenth } from './kinds/resistor-tenth.ts';
import { rowsShifted } from './kinds/rows-shifted.ts';
import { rowsTouch } from './kinds/rows-touch.ts';
import { segmentDead } from './kinds/segment-dead.ts';
import { seriesResistorMissing } from './kinds/series-resistor-missing.ts';
import { supplyLimits } from './kinds/supply-limits.ts';
import { supplyLow } from './kinds/supply-low.ts';
import { supplyOff } from './kinds/supply-off.ts';
import { supplyTurned } from './kinds/supply-reversed.ts';
import { supplyWireMissing } from './kinds/supply-wire-missing.ts';
import { supplyWireWrongRail } from './kinds/supply-wire-wrong-rail.ts';
import { switchRotated } from './kinds/switch-rotated.ts';
import { switchRowOff } from './kinds/switch-row-off.ts';
import { wireAcrossTrench } from './kinds/wire-across-trench.ts';
import { wireMissing } from './kinds/wire-missing.ts';
import { wireRowOff } from './kinds/wire-row-off.ts';
import { wireTwoRowsOff } from './kinds/wire-two-rows-off.ts';
import { wireWrongRail } from './kinds/wire-wrong-rail.ts';
import { wiresSwapped } from './kinds/wires-swapped.ts';

export const FAULT_KINDS: readonly FaultKind[] = [
  addressReversed,
  addressSwapped,
  bitWrong,
  byteErased,
  byteOfNextRow,
  chipDead,
  chipOfOtherKind,
  chipRotated,
  chipRowOff,
  dataInverted,
  dataReversed,
  dataSwapped,
  displayPolarity,
  displayRotated,
  displayRowOff,
  enableWrongRail,
  imageElsewhere,
  imageErased,
  ledDead,
  ledMissing,
  ledTurned,
  legRowOff,
  legWrongRail,
  legsInOneRow,
  memoriesExchanged,
  pinDead,
  poleBridged,
  powerWireMissing,
  powerWireWrongRail,
  pullResistorMissing,
  railWireMissing,
  railsSplit,
  resistorTenfold,
  resistorTenth,
  rowsShifted,
  rowsTouch,
  segmentDead,
  seriesResistorMissing,
  supplyLimits,
  supplyLow,
  supplyOff,
  supplyTurned,
  supplyWireMissing,
  supplyWireWrongRail,
  switchRotated,
  switchRowOff,
  wireAcrossTrench,
  wireMissing,
  wireRowOff,
  wireTwoRowsOff,
  wireWrongRail,
  wiresSwapped,
];
