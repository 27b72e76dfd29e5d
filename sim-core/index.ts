/** The whole public face of the simulator. */
export { apply, type Change, invert, join } from './bench/changes.ts';
export { difference } from './bench/difference.ts';
export { after, changeOf, type History, NO_HISTORY, type Step } from './bench/history.ts';
export { type Layout, type Leg, layOut } from './bench/layout.ts';
export { findNets, type Net, type Nets } from './bench/nets.ts';
export { rebase } from './bench/rebase.ts';
export { curesFor } from './cures/catalogue.ts';
export { type Finding, type Ref, SEVERITIES, type Severity } from './findings/finding.ts';
export { rehearse } from './findings/rehearse.ts';
export { findingsNow } from './findings/survey.ts';
export { type MemoryPins, tablePins } from './findings/table-pins.ts';
export { isBenchText, readBenchText, scanBenchText } from './formats/bench-text.ts';
export { writeBenchText } from './formats/bench-text-writer.ts';
export { readCsvImage, writeCsvImage } from './formats/csv-image.ts';
export { readIntelHex, writeIntelHex } from './formats/intel-hex.ts';
export type { FileRead, Place } from './formats/placing.ts';
export { readRawImage, writeRawImage } from './formats/raw-image.ts';
export { readSRecord, writeSRecord } from './formats/s-record.ts';
export { readTableText, writeTableText } from './formats/table-text.ts';
export { type Comparison, compareImages, type WrongByte } from './logic/compare/compare.ts';
export type { Transform } from './logic/compare/transform.ts';
export { type Ruled, ruledBy } from './logic/departures.ts';
export { needlessInputs, symmetricInputs, unusedInputs } from './logic/dependence.ts';
export { blankImage, type MemoryImage, mergeImages, wholeImage } from './logic/memory-image.ts';
export type { Cube, SumOfProducts } from './logic/minimise/cube.ts';
export { minimise } from './logic/minimise/minimise.ts';
export { type Notation, printSum } from './logic/minimise/print.ts';
export { gatesFor, type Replacement } from './logic/minimise/replacement.ts';
export { NUMBER_TABLES, type NumberTable } from './logic/number-tables.ts';
export { addressOf, type ChipPins, imagesOf, type PinMap, rowOf, straightPins, tableOfImages } from './logic/pin-map.ts';
export { HAND_SPEED, type ProgrammingOrder, type ProgrammingStep, programmingOrder, type Standing } from './logic/programming-order.ts';
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
export { done, type Failure, failed, type Outcome } from './outcome.ts';
export { PARTS, partKind } from './parts/catalogue.ts';
export { ERASER } from './parts/memory/uv.ts';
export { type PartKind, readParams, type WriteReport } from './parts/part.ts';
export { buildPlan } from './plan/build.ts';
export { type CardStep, type MemoryCard, programmingCard } from './plan/card.ts';
export { choicesOfBench } from './plan/choices-of-bench.ts';
export { type Handles, handlesOf, moves, polesFor } from './plan/handles.ts';
export { ARRANGEMENTS, type Arrangement } from './plan/lamp-spots.ts';
export { type MemoryChoice, memoryChoices } from './plan/memory-choice.ts';
export { keepsLimits, type PowerCheck } from './plan/power-checks.ts';
export { beginProof, joinShares, type Proof, type Proving, prove } from './plan/proof.ts';
export { type BuildSheet, type PartsLine, sheetFor, type WiringLine, type WiringSection } from './plan/sheet.ts';
export { fingerprintOf, movedSince, proofHolds, setProof, signedProof } from './plan/signed-proof.ts';
export { startTable } from './plan/start-table.ts';
export type { Wish, WishedOutput } from './plan/wish.ts';
export { type Choices, wishOf } from './plan/wish-of-table.ts';
export { buildCircuit, type Circuit } from './run/circuit.ts';
export type { Options, Simulation } from './run/face.ts';
export type { Act } from './run/hands.ts';
export { LAMP_STEPS, type Readings } from './run/readings.ts';
export type { Trace, TracePin } from './run/recorder.ts';
export { simulate } from './run/simulation.ts';
export { type Sweep, type SweepRow, type SwitchedInput, sweep, switchedInputs } from './run/sweep.ts';
export { dumpTrace } from './run/trace-dump.ts';
export type { Margin, Method } from './tolerance/judge.ts';
export { marginsOf } from './tolerance/margins.ts';
export { grouped } from './units/grouped.ts';
export { hex, hexAddress } from './units/hex.ts';
export { capitalised } from './units/phrase.ts';
export { parseQuantity, siFormat } from './units/quantity.ts';
export type { WhyAnswer } from './why/answer.ts';
export { whyLamp } from './why/lamp.ts';
export { sayChange } from './words/changes.ts';
export { sayCure } from './words/cures.ts';
export { sayFinding } from './words/findings.ts';
export { sayComparison, sayTransform } from './words/images.ts';
export { sayMargin } from './words/margins.ts';
export { sayAsleep, sayMoved, sayPercent, sayRight, sayRowOff } from './words/proof.ts';
export { plain, type Sentence, type Word } from './words/sentence.ts';
export { type ShownDigit, shownDigits } from './words/shown.ts';
export { sayWhy, type WhyWords } from './words/why.ts';
