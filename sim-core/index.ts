/** The whole public face of the simulator. */

export { grouped } from '../shared/grouped.ts';
export { done, type Failure, failed, type Outcome } from '../shared/outcome.ts';
export { type Layout, type Leg, layOut } from './board/layout.ts';
export { findNets, type Net, type Nets } from './board/nets.ts';
export { buildPlan } from './build/build-plan.ts';
export type { BuildRequest, RequestedOutput } from './build/build-request.ts';
export { type BuildSheet, type PartsLine, sheetFor, type WiringLine, type WiringSection } from './build/build-sheet.ts';
export { choicesOfBench } from './build/choices-of-bench.ts';
export { type ControlMap, controlMapOf, moves, polesFor } from './build/control-map.ts';
export { ARRANGEMENTS, type Arrangement } from './build/led-placement.ts';
export { type MemoryChoice, memoryChoices } from './build/memory-choice.ts';
export { keepsLimits, type PowerCheck } from './build/power-checks.ts';
export { type CardStep, type MemoryCard, programmingCard } from './build/programming-card.ts';
export { beginProof, joinShares, type Proving, proveTable, type TableProof } from './build/proof.ts';
export { type Choices, requestOfTable } from './build/request-of-table.ts';
export { fingerprintOf, movedSince, proofHolds, setProof, signedProof } from './build/signed-proof.ts';
export { startTable } from './build/start-table.ts';
export { composeAll } from './demos/documents.ts';
export { emptyBench } from './demos/empty-bench.ts';
export { DEMO_TABLES } from './demos/tables/catalogue.ts';
export type { DemoTable } from './demos/tables/table.ts';
export { apply, type Change, invert, join } from './document/changes.ts';
export { difference } from './document/difference.ts';
export { after, changeOf, type History, NO_HISTORY, type Step } from './document/history.ts';
export { rebase } from './document/rebase.ts';
export { RULES } from './findings/catalogue.ts';
export { dryRun } from './findings/dry-run.ts';
export { type Finding, SEVERITIES, SEVERITY_NAMES, type Severity } from './findings/finding.ts';
export { findingsNow } from './findings/run-rules.ts';
export { fixesFor, fixText, sayFinding } from './findings/say-finding.ts';
export { type MemoryPins, tablePins } from './findings/table-pins.ts';
export { isBenchText, readBenchText, scanBenchText } from './formats/bench-text.ts';
export { writeBenchText } from './formats/bench-text-writer.ts';
export { readCsvImage, writeCsvImage } from './formats/csv-image.ts';
export { readIntelHex, writeIntelHex } from './formats/intel-hex.ts';
export type { FileRead, MemoryPlace } from './formats/placing.ts';
export { readRawImage, writeRawImage } from './formats/raw-image.ts';
export { readSRecord, writeSRecord } from './formats/s-record.ts';
export { readTableText, writeTableText } from './formats/table-text.ts';
export { type Comparison, compareImages, type WrongByte } from './logic/compare/compare.ts';
export type { Transform } from './logic/compare/transform.ts';
export { needlessInputs, symmetricInputs, unusedInputs } from './logic/dependence.ts';
export { blankImage, type MemoryImage, mergeImages, wholeImage } from './logic/memory-image.ts';
export type { Cube, SumOfProducts } from './logic/minimise/cube.ts';
export { type GateCount, gatesFor } from './logic/minimise/gate-count.ts';
export { minimise } from './logic/minimise/minimise.ts';
export { type Notation, printSum } from './logic/minimise/print.ts';
export { NUMBER_TABLES, type NumberTable } from './logic/number-tables.ts';
export { addressOf, type ChipPins, imagesOf, type PinMap, rowOf, straightPins, tableOfImages } from './logic/pin-map.ts';
export {
  HAND_SPEED,
  type ProgrammingOrder,
  type ProgrammingStep,
  programmingOrder,
  type SwitchPositions,
} from './logic/programming-order.ts';
export { type Ruled, ruledBy } from './logic/rule-exceptions.ts';
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
export { ERASER } from './parts/memory/ultraviolet.ts';
export { type PartKind, readParams, type WriteReport } from './parts/part.ts';
export type { Action } from './run/action.ts';
export type { Options, Simulation } from './run/api.ts';
export { buildCircuit, type Circuit } from './run/circuit/circuit.ts';
export { LED_STEPS, type Readings } from './run/readout/readings.ts';
export type { Trace, TracePin } from './run/readout/recorder.ts';
export { dumpTrace } from './run/readout/trace-dump.ts';
export { simulate } from './run/simulation.ts';
export { type Sweep, type SweepRow, type SwitchedInput, sweep, switchedInputs } from './run/sweep.ts';
export type { Ref } from './sentence/ref.ts';
export { plain, type Sentence, type Word } from './sentence/sentence.ts';
export { sayChange } from './text/changes.ts';
export { type DisplayReading, displayReadings } from './text/displays.ts';
export { sayComparison, sayTransform } from './text/images.ts';
export { sayMargin } from './text/margins.ts';
export { sayDisabled, sayMoved, sayPercent, sayRight, sayRowOff } from './text/proof.ts';
export { sayWhy, type WhyWords } from './text/why.ts';
export type { Margin, Method } from './tolerance/margin-evaluation.ts';
export { marginsOf } from './tolerance/margins.ts';
export { hex, hexAddress } from './units/hex.ts';
export { parseQuantity, siFormat } from './units/quantity.ts';
export { capitalised } from './units/text-list.ts';
export type { WhyAnswer } from './why/answer.ts';
export { whyLed } from './why/why-led.ts';
