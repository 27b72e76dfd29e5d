/** The whole public face of the simulator. */

export { grouped } from '../shared/grouped.ts';
export { done, type Failure, failed, type Outcome } from '../shared/outcome.ts';
export { BOARDS, boardSize, LINE_Y, LOWER, RAILS, railX, UPPER } from './board/boards.ts';
export { holesOfPart, type Layout, type Leg, layOut } from './board/layout.ts';
export { findNets, type Net, type Nets } from './board/nets.ts';
export { type Hole, holeAt, holeName, holeSpot, holesOf, isRailHole, readHole, stripOf } from './board/tie-points.ts';
export { blankTable, PINS_TO_COME } from './build/blank-table.ts';
export { draftPlan } from './build/build-plan.ts';
export type { BuildRequest, RequestedOutput } from './build/build-request.ts';
export { type BenchChoices, choicesOfBench } from './build/choices-of-bench.ts';
export { type ControlMap, controlMapOf, moves } from './build/control-map.ts';
export { limitsOf } from './build/current-limits.ts';
export { contentsOfKind, type KindContents } from './build/kind-contents.ts';
export { ARRANGEMENTS, type Arrangement, arrangementsFor } from './build/led-placement.ts';
export { type MemoryChoice, memoryChoices } from './build/memory-choice.ts';
export { type CardStep, type MemoryCard, programmingCard } from './build/programming-card.ts';
export { buildPlan, handOver } from './build/proven-build.ts';
export { type Choices, requestOfTable } from './build/request-of-table.ts';
export { fingerprintOf, movedSince, PROVEN, proofHolds, signedProof } from './build/signed-proof.ts';
export { startTable } from './build/start-table.ts';
export { explainedProof, proveTable } from './build/whole-proof.ts';
export { composeAll } from './demos/documents.ts';
export { emptyBench } from './demos/empty-bench.ts';
export { DEMO_TABLES } from './demos/tables/catalogue.ts';
export type { DemoTable } from './demos/tables/table.ts';
export { apply, type Change, type Insert, invert, isKnownChange, join, setField } from './document/changes.ts';
export { difference } from './document/difference.ts';
export { addBoard, cutRails, moveBoard } from './document/edits/boards.ts';
export { storeBytes } from './document/edits/bytes.ts';
export { copy, type Pasted, paste, repeatAlongRows } from './document/edits/copy.ts';
export { type EditContext, roomBeside, settleWire } from './document/edits/edit-context.ts';
export { move, wiresOf } from './document/edits/move.ts';
export { type Placing, place } from './document/edits/place.ts';
export { reLeg, setLabel, setParams, setPoleName } from './document/edits/properties.ts';
export { remove } from './document/edits/remove.ts';
export { flip, turn } from './document/edits/rotate.ts';
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
} from './document/edits/wanted.ts';
export { withNamesOfRules } from './document/edits/wanted-names.ts';
export { freeBesideLeg, wireBetween } from './document/edits/wire-by-meaning.ts';
export { addWire, joinRails, recolour, reEnd } from './document/edits/wires.ts';
export { after, changeOf, type History, NO_HISTORY, type Step } from './document/history.ts';
export { asMeant, keepAsMeant } from './document/meant.ts';
export { byteAt, digitsByAddress, rowsOfBytes } from './document/memory-rows.ts';
export { replacing, storing } from './document/memory-writes.ts';
export { rebase } from './document/rebase.ts';
export { DIFFICULTIES, type Difficulty, type PlantedBench, plantFault } from './faults/planted-bench.ts';
export { calm } from './findings/calm.ts';
export { RULES } from './findings/catalogue.ts';
export { type BenchCheck, checkBench, dryRun } from './findings/dry-run.ts';
export { type Finding, SEVERITIES, SEVERITY_NAMES, type Severity } from './findings/finding.ts';
export { ledsOfOutput } from './findings/led-of-output.ts';
export { FINGER } from './findings/press.ts';
export { findingsInTurns, findingsNow, type TableSaid, tableInTurns } from './findings/run-rules.ts';
export { fixesFor, fixText, groupAlike, sayFinding } from './findings/say-finding.ts';
export { storedImage, storedTable, storeImage, storeTable, type Unasked, wantedImages } from './findings/store-table.ts';
export { type MemoryPins, tablePins } from './findings/table-pins.ts';
export { beginProof, type Difference, joinShares, type Proving, type TableProof } from './findings/table-proof.ts';
export { isBenchText, readBenchText, scanBenchText, writeBenchText } from './formats/bench-text.ts';
export { readCellBlock } from './formats/cell-block.ts';
export { readCsvImage, writeCsvImage } from './formats/csv-image.ts';
export { readIntelHex, writeIntelHex } from './formats/intel-hex.ts';
export type { FileRead, MemoryPlace } from './formats/placing.ts';
export { readRawImage, writeRawImage } from './formats/raw-image.ts';
export { readSRecord, writeSRecord } from './formats/s-record.ts';
export { headingOf, readTableFile, readTableText, type TableRead, writeTableText } from './formats/table-text.ts';
export { type Checksums, checksumsOf, sayChecksums } from './logic/checksums.ts';
export { type Comparison, compareImages, type WrongWord } from './logic/compare/compare.ts';
export { needlessInputs, symmetricInputs } from './logic/dependence.ts';
export { quotedName } from './logic/expression/names.ts';
export { type NewNames, newNames } from './logic/expression/new-names.ts';
export { overriddenRules } from './logic/expression/rule-override.ts';
export { blankImage, type MemoryImage, mergeImages, wholeImage } from './logic/memory-image.ts';
export type { Cube, SumOfProducts } from './logic/minimise/cube.ts';
export { formsOf } from './logic/minimise/exclusive-or.ts';
export { hasXor, type OutputForm } from './logic/minimise/form.ts';
export { type GateCount, gatesFor } from './logic/minimise/gate-count.ts';
export { minimise } from './logic/minimise/minimise.ts';
export { letterNames, type Notation, printForm, printSum } from './logic/minimise/print.ts';
export { NUMBER_TABLES, type NumberTable } from './logic/number-tables.ts';
export { addressOf, type ChipPins, imagesOf, type PinMap, rowOf, tableOfImages } from './logic/pin-map.ts';
export {
  HAND_SPEED,
  type ProgrammingOrder,
  type ProgrammingStep,
  programmingOrder,
  type SwitchPositions,
} from './logic/programming-order.ts';
export { exceptionBits, type Ruled, type RuleException, ruledBy, ruleExceptions } from './logic/rule-exceptions.ts';
export { tableOfRules, withRules } from './logic/rules-table.ts';
export {
  type Cell,
  type CellChange,
  cellAt,
  emptyTable,
  rowsOf,
  type TruthTable,
  tableOfWords,
  withCells,
  wrongBits,
} from './logic/truth-table.ts';
export { PARTS, partKind } from './parts/catalogue.ts';
export type { ChipState } from './parts/contract/chip.ts';
export type { Params } from './parts/contract/figure.ts';
export type { WriteReport, WriteTime } from './parts/contract/write-report.ts';
export { partLookup } from './parts/footprint-index.ts';
export { ERASER } from './parts/memory/ultraviolet.ts';
export { type PartKind, type Pin, readParams } from './parts/part.ts';
export { BenchRecord, type RecordOptions, type TimeWindow } from './record/bench-record.ts';
export { recordCsv, recordVcd } from './record/dump.ts';
export { RecordedBench } from './record/recorded-bench.ts';
export { readTrigger, type Trigger } from './record/trigger.ts';
export { findRepairs, type Repair, type RepairProgress, searchRepairs } from './repair/search.ts';
export type { Action } from './run/action.ts';
export type { Options, Simulation } from './run/api.ts';
export { buildCircuit, type Circuit } from './run/circuit/circuit.ts';
export {
  type Brightness,
  type ChipReading,
  type CoilReading,
  LED_STEPS,
  type LedReading,
  type NetReading,
  type Readings,
  type SupplyReading,
} from './run/readout/readings.ts';
export type { Trace, TracePin } from './run/readout/recorder.ts';
export { dumpTrace } from './run/readout/trace-dump.ts';
export type { Share } from './run/row-walk.ts';
export { simulate, simulateAsFound } from './run/simulation.ts';
export type { Slices } from './run/slices.ts';
export { type Sweep, type SweepRow, sweep } from './run/sweep.ts';
export { type PoleAt, type SwitchedInput, switchedInputs } from './run/switched-inputs.ts';
export { chipNames, sayComparison } from './sentence/compared-images.ts';
export { overloadWords } from './sentence/damage.ts';
export { readQuestion, writeQuestion } from './sentence/question.ts';
export { ledText, ledWithin, plain, type Ref, type Sentence, type Word } from './sentence/wording.ts';
export { type BuildSheet, type PartsLine, type SheetStage, sheetFor } from './sheet/build-sheet.ts';
export { type CheckLine, checkLines } from './sheet/check-lines.ts';
export { type CheckReading, type LightCheck, type MeterCheck, passes, type StageCheck } from './sheet/stage-check.ts';
export { stageChecks } from './sheet/stage-checks.ts';
export type { StageStep } from './sheet/stage-steps.ts';
export type { StageName } from './sheet/stages.ts';
export { type UsualCause, usualCauses } from './sheet/usual-causes.ts';
export { sayChange } from './text/changes.ts';
export { CHOICE_SAYS, sayBrightness, sayWritten } from './text/choices.ts';
export { brightnessText, type DisplayReading, displayReadings } from './text/displays.ts';
export { sayLeftOut } from './text/left-out.ts';
export { LIMITS, limitSays, MODELLED } from './text/limits.ts';
export { sayMargin } from './text/margins.ts';
export { sayCounts, sayDisabled, sayMoved, sayPercent, sayRight, sayRowOff, sayTriedOn } from './text/proof.ts';
export { sayBand } from './text/reading-band.ts';
export { sayRepair, sayRepairsFound } from './text/repairs.ts';
export { STAGE_TITLES, sayGood, sayHow, sayLights, sayMeasured } from './text/stage-words.ts';
export { sayTidied } from './text/tidied.ts';
export { sayWhy, type WhyWords } from './text/why.ts';
export { explain, explainInTurns } from './text/why-about.ts';
export { type TidiedPlan, tidyWiring } from './tidy/tidy-wiring.ts';
export { OBSTACLE_WEIGHT, type Obstacle, pathsOfPlan, type WirePath, type WireRun, wirePaths } from './tidy/wire-paths.ts';
export { type WiringFigures, wiringFigures } from './tidy/wiring-figures.ts';
export type { Margin, Method } from './tolerance/margin-evaluation.ts';
export { marginsOf } from './tolerance/margins.ts';
export { type ReadingBand, readingBand } from './tolerance/reading-band.ts';
export { colourBands } from './units/colour-bands.ts';
export { hex, hexAddress, hexByte, partlyHex, partlyHexAddress } from './units/hex.ts';
export { parseQuantity, siFormat } from './units/quantity.ts';
export { currentText, UNSEEN_AMPS } from './units/seen.ts';
export { capitalised, enumeration } from './units/text-list.ts';
export type { WhyAnswer } from './why/answer.ts';
export { whyLed } from './why/why-led.ts';
