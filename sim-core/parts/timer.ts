/** Bipolar timer, 8 pins: two comparators on a divider of three equal resistors, a flip-flop, an output and a switch that discharges a capacitor. */
import { dip } from '../board/footprints.ts';
import { channelThrough, NOTHING } from './figures/channels.ts';
import { answerOf, prepare, RunningLogicChip } from './logic/logic-chip.ts';
import { HIGH, LOW, type LogicRule, RELEASED } from './logic/logic-function.ts';
import { type ChipSpec, constantCurrent, definePart, type Figure, type InputFigures, type Pin } from './part.ts';

/** The usual pin-out: SOURCES.md S1, S38. */
const PINS = ['GND', 'TRIG', 'OUT', '/RESET', 'CONT', 'THRES', 'DISCH', 'VCC'];
const INPUTS = ['TRIG', 'THRES', '/RESET'];

/** Each of the three resistors of the divider [Ω]; from memory. */
const DIVIDER = 5e3;
/** THRES as a part of the supply, TRIG at half of it; a specimen's own in `share`. */
const SHARE = 2 / 3;

/** TRIG at half of CONT, THRES at all of it; their currents from memory. */
const comparator = (share: number, leakage: number, rest = SHARE): InputFigures => ({
  vil: share,
  vih: share,
  of: { pin: 'CONT', rest },
  leakage,
  capacitance: 5e-12,
});

/** At 5 V, 8 mA: 0.15 V typical, 0.4 V at most, output and DISCH alike: SOURCES.md S38. */
const low = { typical: channelThrough([[0.15, 8e-3]], 0.15), guaranteed: channelThrough([[0.4, 8e-3]], 0.15) };

/** 3.3 V typical at 100 mA (SOURCES.md S38), 3.7 V at 1 mA from memory; guaranteed 2.75 V at 100 mA (S38), 3.2 V at 1 mA from memory. */
const high = {
  typical: channelThrough([
    [1.3, 1e-3],
    [1.7, 0.1],
  ]),
  guaranteed: channelThrough([
    [1.8, 1e-3],
    [2.25, 0.1],
  ]),
};

/** One bit: low while /RESET is low, else set while TRIG is below, else cleared while THRES is above. */
const rule: LogicRule = {
  cells: [{ bits: 1, of: ['/RESET', 'TRIG', 'THRES'], next: (run, trig, thres, q) => (!run ? 0 : !trig ? 1 : thres ? 0 : q) }],
  takes: { at: 'all times' },
  outputs: [
    { name: 'OUT', of: [], cell: 0, is: (q) => (q ? HIGH : LOW) },
    { name: 'DISCH', of: [], cell: 0, is: (q) => (q ? RELEASED : LOW) },
  ],
};
const prepared = prepare(rule, INPUTS);
/** From a comparator to the outputs [s], and the supply at which it does anything [V]; from memory. */
const DELAY = 100e-9;
const ALIVE = 3;

const mostPinCurrent: Figure = { name: 'steady current of one output', value: 0.2, unit: 'A', source: 'from memory' };
const mostPackageCurrent: Figure = { name: 'steady current through a supply pin', value: 0.2, unit: 'A', source: 'from memory' };

const chip: ChipSpec = {
  supplyPin: 'VCC',
  groundPin: 'GND',
  inputs: INPUTS,
  outputs: ['OUT', 'DISCH'],
  // /RESET: 0.3 to 1.0 V, SOURCES.md S38; its current from memory
  input: { vil: 0.3, vih: 1, leakage: 0.4e-3, capacitance: 5e-12 },
  special: { TRIG: comparator(0.5, 0.5e-6), THRES: comparator(1, 30e-9) },
  drive: {
    typical: { low: low.typical, high: high.typical },
    guaranteed: { low: low.guaranteed, high: high.guaranteed },
  },
  specialDrive: {
    DISCH: { typical: { low: low.typical, high: NOTHING }, guaranteed: { low: low.guaranteed, high: NOTHING } },
  },
  reaches: { vil: 0.3, vih: 0.4, of: 'supply' },
  noUpperClamps: true,
  released: { leakage: 100e-9, capacitance: 5e-12 },
  // 3 mA typical, 6 mA at most, at 5 V (SOURCES.md S38), of which the divider shows a third of a milliampere
  supplyCurrent: constantCurrent(2.7e-3, 5.7e-3),
  mostPinCurrent,
  mostPackageCurrent,
  mostSupply: { name: 'supply, absolute most', value: 18, unit: 'V', source: 'from memory' },
  supplyMarks: [ALIVE],
  supplyRange: [4.5, 16],
  answers: answerOf(prepared),
  start: (bench) => new RunningLogicChip(bench, prepared, { delay: DELAY, setup: 0, slowest: 0, alive: ALIVE }),
};

const role = (name: string): Pin['role'] =>
  name === 'VCC' ? 'supply' : name === 'GND' ? 'ground' : name === 'CONT' ? 'passive' : INPUTS.includes(name) ? 'input' : 'output';

export const timer = definePart({
  id: 'timer',
  title: 'Timer, bipolar',
  synonyms: ['monostable', 'astable', 'one-shot', 'one shot'],
  group: 'logic',
  params: [
    { name: 'share', type: 'number', unit: '', fallback: SHARE, least: 0.5, most: 0.8 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 1.6, least: 0, most: 10 },
  ],
  footprint: () => dip(8),
  pins: () => PINS.map((name, i): Pin => ({ pin: String(i + 1), name, role: role(name) })),
  figures: [
    { name: 'THRES, part of the supply', value: 2 / 3, unit: '', source: 'SOURCES.md S38' },
    { name: 'TRIG, part of the supply', value: 1 / 3, unit: '', source: 'SOURCES.md S38' },
    { name: 'each resistor of the divider', value: DIVIDER, unit: 'Ω', source: 'from memory' },
    { name: '/RESET guaranteed low up to', value: chip.input.vil, unit: 'V', source: 'SOURCES.md S38' },
    { name: '/RESET guaranteed high from', value: chip.input.vih, unit: 'V', source: 'SOURCES.md S38' },
    { name: 'output low at 8 mA, typical', value: 0.15, unit: 'V', source: 'SOURCES.md S38' },
    { name: 'output high at 100 mA, typical', value: 3.3, unit: 'V', source: 'SOURCES.md S38' },
    { name: 'delay', value: DELAY, unit: 's', source: 'from memory' },
    { name: 'supply current, typical', value: 3e-3, unit: 'A', source: 'SOURCES.md S38' },
    { name: 'supply current, most', value: 6e-3, unit: 'A', source: 'SOURCES.md S38' },
    mostPinCurrent,
    mostPackageCurrent,
  ],
  spread: { of: 'share', source: 'derived: the time of RC·ln(1/(1 − share)) is off by 3 % at most (from memory), so its share by 1.6 %' },
  connect(w, p) {
    const pin = (name: string) => String(PINS.indexOf(name) + 1);
    const share = Number(p.share);
    w.chip({ ...chip, special: { TRIG: comparator(0.5, 0.5e-6, share), THRES: comparator(1, 30e-9, share) } });
    w.conductor(pin('VCC'), pin('CONT'), 1 / DIVIDER);
    w.conductor(pin('CONT'), pin('GND'), (1 - share) / (share * DIVIDER));
  },
});
