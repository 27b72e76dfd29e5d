/** What the page takes from sim-core: geometry, nets, part descriptions, words and types. The simulation itself runs in the worker. */
export { BOARDS, boardSize, LINE_Y, LOWER, RAILS, railX, UPPER } from '../sim-core/bench/boards.ts';
export { apply, type Change, join } from '../sim-core/bench/changes.ts';
export { difference } from '../sim-core/bench/difference.ts';
export { addBoard, cutRails, moveBoard } from '../sim-core/bench/edits/boards.ts';
export { storeBytes } from '../sim-core/bench/edits/bytes.ts';
export { copy, type Pasted, paste, repeatAlongRows } from '../sim-core/bench/edits/copy.ts';
export { type Ground, roomBeside, settleLead } from '../sim-core/bench/edits/ground.ts';
export { addLead, joinRails, recolour, reEnd } from '../sim-core/bench/edits/leads.ts';
export { leadsOf, move } from '../sim-core/bench/edits/move.ts';
export { type Placing, place } from '../sim-core/bench/edits/place.ts';
export { remove } from '../sim-core/bench/edits/remove.ts';
export { reLeg, setLabel, setParams } from '../sim-core/bench/edits/settings.ts';
export { flip, turn } from '../sim-core/bench/edits/turn.ts';
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
} from '../sim-core/bench/edits/wanted.ts';
export { after, changeOf, type History, NO_HISTORY, type Step } from '../sim-core/bench/history.ts';
export { holesOfPart, type Layout, layOut } from '../sim-core/bench/layout.ts';
export { byteAt, digitsByAddress, rowsOfBytes } from '../sim-core/bench/memory-rows.ts';
export { findNets, type Nets } from '../sim-core/bench/nets.ts';
export { type Hole, holeAt, holeName, holeSpot, holesOf, isRailHole, readHole, stripOf } from '../sim-core/bench/points.ts';
export { rebase } from '../sim-core/bench/rebase.ts';
export { replacing, storing } from '../sim-core/bench/storing.ts';
export { type Ref, SEVERITIES, type Severity } from '../sim-core/findings/finding.ts';
export type { MemoryPins } from '../sim-core/findings/table-pins.ts';
export { isBenchText, scanBenchText } from '../sim-core/formats/bench-text.ts';
export { writeBenchText } from '../sim-core/formats/bench-text-writer.ts';
export { readCellBlock } from '../sim-core/formats/cell-block.ts';
export { readCsvImage, writeCsvImage } from '../sim-core/formats/csv-image.ts';
export { readIntelHex, writeIntelHex } from '../sim-core/formats/intel-hex.ts';
export type { FileRead, Place } from '../sim-core/formats/placing.ts';
export { readRawImage, writeRawImage } from '../sim-core/formats/raw-image.ts';
export { readSRecord, writeSRecord } from '../sim-core/formats/s-record.ts';
export { headingOf, readTableText, writeTableText } from '../sim-core/formats/table-text.ts';
export type { WrongByte } from '../sim-core/logic/compare/compare.ts';
export { type Departure, departedBits, departures, type Ruled, ruledBy } from '../sim-core/logic/departures.ts';
export { needlessInputs, symmetricInputs } from '../sim-core/logic/dependence.ts';
export { givingWay } from '../sim-core/logic/expression/giving-way.ts';
export { quotedName } from '../sim-core/logic/expression/names.ts';
export { type MemoryImage, mergeImages } from '../sim-core/logic/memory-image.ts';
export type { Cube, SumOfProducts } from '../sim-core/logic/minimise/cube.ts';
export { type Notation, printProducts, printSum } from '../sim-core/logic/minimise/print.ts';
export type { Replacement } from '../sim-core/logic/minimise/replacement.ts';
export { NUMBER_TABLES, type NumberTable } from '../sim-core/logic/number-tables.ts';
export { addressOf, type ChipPins, rowOf } from '../sim-core/logic/pin-map.ts';
export { type Cell, type CellChange, cellAt, type TruthTable, wrongBits } from '../sim-core/logic/truth-table.ts';
export type { Failure, Outcome } from '../sim-core/outcome.ts';
export { PARTS, partKind } from '../sim-core/parts/catalogue.ts';
export {
  type ChipState,
  type Params,
  type PartKind,
  type Pin,
  readParams,
  type WriteReport,
  type WriteTime,
} from '../sim-core/parts/part.ts';
export { kinds } from '../sim-core/parts/shapes.ts';
export type { CardStep, MemoryCard } from '../sim-core/plan/card.ts';
export { type BenchChoices, choicesOfBench } from '../sim-core/plan/choices-of-bench.ts';
export type { PoleAt } from '../sim-core/plan/handles.ts';
export { type Arrangement, arrangementsFor } from '../sim-core/plan/lamp-spots.ts';
export { limitsOf } from '../sim-core/plan/limits.ts';
export { memoryChoices } from '../sim-core/plan/memory-choice.ts';
export { keepsLimits, type PowerCheck } from '../sim-core/plan/power-checks.ts';
export type { Difference, Proof } from '../sim-core/plan/proof.ts';
export type { BuildSheet, PartsLine, WiringLine, WiringSection } from '../sim-core/plan/sheet.ts';
export { fingerprintOf, movedSince, PROVEN, setProof, signedProof } from '../sim-core/plan/signed-proof.ts';
export { storedImage, storedTable, storeImage, storeTable, type Unasked, wantedImages } from '../sim-core/plan/store-table.ts';
export type { Choices } from '../sim-core/plan/wish-of-table.ts';
export type { Act } from '../sim-core/run/hands.ts';
export type { ChipReading, Glow, LampReading, NetReading, Readings, SupplyReading } from '../sim-core/run/readings.ts';
export { LAMP_STEPS } from '../sim-core/run/readings.ts';
export type { Trace } from '../sim-core/run/recorder.ts';
export type { Share, SwitchedInput } from '../sim-core/run/sweep.ts';
export { dumpTrace } from '../sim-core/run/trace-dump.ts';
export { colourBands } from '../sim-core/units/colour-bands.ts';
export { grouped } from '../sim-core/units/grouped.ts';
export { hex, hexAddress, hexByte, partlyHex, partlyHexAddress } from '../sim-core/units/hex.ts';
export { capitalised, enumeration } from '../sim-core/units/phrase.ts';
export { parseQuantity, siFormat } from '../sim-core/units/quantity.ts';
export { sayChange } from '../sim-core/words/changes.ts';
export { CHOICE_SAYS, sayBrightness, sayWritten } from '../sim-core/words/choices.ts';
export { boreOf } from '../sim-core/words/damage.ts';
export { sayLeftOut } from '../sim-core/words/left-out.ts';
export { LIMITS, limitSays, MODELLED } from '../sim-core/words/limits.ts';
export { lampWithin } from '../sim-core/words/nouns.ts';
export { sayAsleep, sayMoved, sayPercent, sayRight, sayRowOff } from '../sim-core/words/proof.ts';
export { plain, type Sentence } from '../sim-core/words/sentence.ts';
export { type ShownDigit, shownDigits } from '../sim-core/words/shown.ts';
