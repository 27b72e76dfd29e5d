/** What the page takes from sim-core: geometry, nets, part descriptions, words and types. The simulation itself runs in the worker. */

export { grouped } from '../shared/grouped.ts';
export { done, type Failure, failed, type Outcome } from '../shared/outcome.ts';
export { BOARDS, boardSize, LINE_Y, LOWER, RAILS, railX, UPPER } from '../sim-core/board/boards.ts';
export { holesOfPart, type Layout, layOut } from '../sim-core/board/layout.ts';
export { findNets, type Nets } from '../sim-core/board/nets.ts';
export { type Hole, holeAt, holeName, holeSpot, holesOf, isRailHole, readHole, stripOf } from '../sim-core/board/tie-points.ts';
export type { BuildSheet, PartsLine, WiringLine, WiringSection } from '../sim-core/build/build-sheet.ts';
export { type BenchChoices, choicesOfBench } from '../sim-core/build/choices-of-bench.ts';
export type { PoleAt } from '../sim-core/build/control-map.ts';
export { limitsOf } from '../sim-core/build/current-limits.ts';
export { type Arrangement, arrangementsFor } from '../sim-core/build/led-placement.ts';
export { memoryChoices } from '../sim-core/build/memory-choice.ts';
export { keepsLimits, type PowerCheck } from '../sim-core/build/power-checks.ts';
export type { CardStep, MemoryCard } from '../sim-core/build/programming-card.ts';
export type { Difference, TableProof } from '../sim-core/build/proof.ts';
export type { Choices } from '../sim-core/build/request-of-table.ts';
export { fingerprintOf, movedSince, PROVEN, setProof, signedProof } from '../sim-core/build/signed-proof.ts';
export { storedImage, storedTable, storeImage, storeTable, type Unasked, wantedImages } from '../sim-core/build/store-table.ts';
export { emptyBench } from '../sim-core/demos/empty-bench.ts';
export { DEMO_TABLES } from '../sim-core/demos/tables/catalogue.ts';
export { apply, type Change, join } from '../sim-core/document/changes.ts';
export { difference } from '../sim-core/document/difference.ts';
export { addBoard, cutRails, moveBoard } from '../sim-core/document/edits/boards.ts';
export { storeBytes } from '../sim-core/document/edits/bytes.ts';
export { copy, type Pasted, paste, repeatAlongRows } from '../sim-core/document/edits/copy.ts';
export { type EditContext, roomBeside, settleWire } from '../sim-core/document/edits/edit-context.ts';
export { move, wiresOf } from '../sim-core/document/edits/move.ts';
export { type Placing, place } from '../sim-core/document/edits/place.ts';
export { reLeg, setLabel, setParams } from '../sim-core/document/edits/properties.ts';
export { remove } from '../sim-core/document/edits/remove.ts';
export { flip, turn } from '../sim-core/document/edits/rotate.ts';
export {
  addInput,
  addOutput,
  changeLine,
  moveLine,
  removeLine,
  settingCells,
  settingWanted,
  tableOfWanted,
  wantedOfTable,
  withWantedCells,
  withWantedRules,
} from '../sim-core/document/edits/wanted.ts';
export { addWire, joinRails, recolour, reEnd } from '../sim-core/document/edits/wires.ts';
export { after, changeOf, type History, NO_HISTORY, type Step } from '../sim-core/document/history.ts';
export { byteAt, digitsByAddress, rowsOfBytes } from '../sim-core/document/memory-rows.ts';
export { replacing, storing } from '../sim-core/document/memory-writes.ts';
export { rebase } from '../sim-core/document/rebase.ts';
export { SEVERITIES, SEVERITY_NAMES, type Severity } from '../sim-core/findings/finding.ts';
export type { MemoryPins } from '../sim-core/findings/table-pins.ts';
export { isBenchText, scanBenchText } from '../sim-core/formats/bench-text.ts';
export { writeBenchText } from '../sim-core/formats/bench-text-writer.ts';
export { readCellBlock } from '../sim-core/formats/cell-block.ts';
export { readCsvImage, writeCsvImage } from '../sim-core/formats/csv-image.ts';
export { readIntelHex, writeIntelHex } from '../sim-core/formats/intel-hex.ts';
export type { FileRead, MemoryPlace } from '../sim-core/formats/placing.ts';
export { readRawImage, writeRawImage } from '../sim-core/formats/raw-image.ts';
export { readSRecord, writeSRecord } from '../sim-core/formats/s-record.ts';
export { headingOf, readTableText, writeTableText } from '../sim-core/formats/table-text.ts';
export type { WrongByte } from '../sim-core/logic/compare/compare.ts';
export { needlessInputs, symmetricInputs } from '../sim-core/logic/dependence.ts';
export { quotedName } from '../sim-core/logic/expression/names.ts';
export { overriddenRules } from '../sim-core/logic/expression/rule-override.ts';
export { type MemoryImage, mergeImages } from '../sim-core/logic/memory-image.ts';
export type { Cube, SumOfProducts } from '../sim-core/logic/minimise/cube.ts';
export type { GateCount } from '../sim-core/logic/minimise/gate-count.ts';
export { type Notation, printProducts, printSum } from '../sim-core/logic/minimise/print.ts';
export { NUMBER_TABLES, type NumberTable } from '../sim-core/logic/number-tables.ts';
export { addressOf, type ChipPins, rowOf } from '../sim-core/logic/pin-map.ts';
export { exceptionBits, type Ruled, type RuleException, ruledBy, ruleExceptions } from '../sim-core/logic/rule-exceptions.ts';
export { type Cell, type CellChange, cellAt, type TruthTable, wrongBits } from '../sim-core/logic/truth-table.ts';
export { PARTS, partKind } from '../sim-core/parts/catalogue.ts';
export { partLookup } from '../sim-core/parts/footprint-index.ts';
export {
  type ChipState,
  type Params,
  type PartKind,
  type Pin,
  readParams,
  type WriteReport,
  type WriteTime,
} from '../sim-core/parts/part.ts';
export type { Action } from '../sim-core/run/action.ts';
export type { ChipReading, Glow, LedReading, NetReading, Readings, SupplyReading } from '../sim-core/run/readout/readings.ts';
export { LED_STEPS } from '../sim-core/run/readout/readings.ts';
export type { Trace } from '../sim-core/run/readout/recorder.ts';
export { dumpTrace } from '../sim-core/run/readout/trace-dump.ts';
export type { Share, SwitchedInput } from '../sim-core/run/sweep.ts';
export { overloadWords } from '../sim-core/sentence/damage.ts';
export { ledWithin } from '../sim-core/sentence/nouns.ts';
export type { Ref } from '../sim-core/sentence/ref.ts';
export { plain, type Sentence } from '../sim-core/sentence/sentence.ts';
export { sayChange } from '../sim-core/text/changes.ts';
export { CHOICE_SAYS, sayBrightness, sayWritten } from '../sim-core/text/choices.ts';
export { type DisplayReading, displayReadings } from '../sim-core/text/displays.ts';
export { sayLeftOut } from '../sim-core/text/left-out.ts';
export { LIMITS, limitSays, MODELLED } from '../sim-core/text/limits.ts';
export { sayDisabled, sayMoved, sayPercent, sayRight, sayRowOff } from '../sim-core/text/proof.ts';
export { colourBands } from '../sim-core/units/colour-bands.ts';
export { hex, hexAddress, hexByte, partlyHex, partlyHexAddress } from '../sim-core/units/hex.ts';
export { parseQuantity, siFormat } from '../sim-core/units/quantity.ts';
export { capitalised, enumeration } from '../sim-core/units/text-list.ts';
