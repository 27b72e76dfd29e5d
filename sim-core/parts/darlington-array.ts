/** Arrays of seven and eight Darlington switches: a high input pulls its output low, strongly, down to what two transistors in one keep for themselves. */
import { dip } from '../board/footprints.ts';
import { channelThrough, NOTHING } from './figures/channels.ts';
import { clampDiode, junctionThrough } from './figures/junctions.ts';
import { answerOf, prepare, RunningLogicChip } from './logic/logic-chip.ts';
import { LOW, type LogicRule, many, RELEASED } from './logic/logic-function.ts';
import { type ChipSpec, constantCurrent, definePart, type Figure, type PartKind, type Pin } from './part.ts';

/** Voltage left at 100, 200 and 350 mA: typical 0.9, 1.0, 1.3 V, at most 1.1, 1.3, 1.6 V: SOURCES.md S20, S21. */
const LEFT = {
  typical: channelThrough([
    [0.9, 0.1],
    [1.0, 0.2],
    [1.3, 0.35],
  ]),
  guaranteed: channelThrough([
    [1.1, 0.1],
    [1.3, 0.2],
    [1.6, 0.35],
  ]),
};

/** 0.93 mA at 3.85 V through 2.7 kΩ (SOURCES.md S20), two junctions in series; what the bases' own resistors hold while these are off, from memory. */
const BASE_OHMS = 100e3;
const INPUT_OHMS = 2.7e3;
const intoBase = junctionThrough(3.85, 0.93e-3 - 3.85 / BASE_OHMS, 2, INPUT_OHMS);

const current = (name: string, value: number): Figure => ({ name, value, unit: 'A', source: 'SOURCES.md S20' });
const mostPinCurrent = current('steady current of one output', 0.5);
const mostPackageCurrent = current('all outputs together', 2.5);

const most = (name: string, value: number, unit: string, source: string): Figure => ({ name, value, unit, source });
const mostPower = most('power', 2, 'W', 'from memory: a plastic package in free air at 25 °C');
const mostOutput = most('output, absolute most', 50, 'V', 'SOURCES.md S20');
const mostInput = most('input, absolute most', 30, 'V', 'from memory');

function chipOf(rule: LogicRule, inputs: readonly string[]): ChipSpec {
  const prepared = prepare(rule, inputs);
  return {
    supplyPin: 'GND',
    groundPin: 'GND',
    inputs,
    outputs: rule.outputs.map((o) => o.name),
    // off up to 0.7 V (SOURCES.md S21), on from 2.4 V at 200 mA (S20); 20 pF (S20)
    input: { vil: 0.7, vih: 2.4, leakage: 1e-6, capacitance: 20e-12 },
    drive: {
      typical: { low: LEFT.typical, high: NOTHING },
      guaranteed: { low: LEFT.guaranteed, high: NOTHING },
    },
    reaches: { vil: 2, vih: 2 },
    noUpperClamps: true,
    released: { leakage: 50e-6, capacitance: 15e-12 },
    supplyCurrent: constantCurrent(0),
    mostPinCurrent,
    mostPackageCurrent,
    mostVolts: Object.fromEntries([...inputs.map((n) => [n, mostInput]), ...rule.outputs.map((o) => [o.name, mostOutput])]),
    supplyMarks: [],
    supplyRange: [0, 50],
    answers: answerOf(prepared),
    // switches in about 0.1 µs, from memory; it has no supply that it could lack
    start: (bench) => new RunningLogicChip(bench, prepared, { delay: 100e-9, setup: 0, slowest: 0, alive: Number.NEGATIVE_INFINITY }),
  };
}

function array(channels: 7 | 8): PartKind {
  const names = many(channels, (i) => String(i + 1));
  const inputs = names.map((n) => `IN${n}`);
  const rule = {
    outputs: names.map((n) => ({ name: `OUT${n}`, of: [`IN${n}`], is: (on: number) => (on ? LOW : RELEASED) })),
  };
  const chip = chipOf(rule, inputs);
  const order = [...inputs, 'GND', 'COM', ...[...names].reverse().map((n) => `OUT${n}`)];
  const role = (name: string): Pin['role'] =>
    name === 'GND' ? 'ground' : name === 'COM' ? 'passive' : name.startsWith('IN') ? 'input' : 'output';
  return definePart({
    id: `darlington-array-${channels}`,
    title: `Darlington array, ${channels === 7 ? 'seven' : 'eight'} channels`,
    synonyms: ['transistor array', 'relay driver', 'open-collector driver'],
    group: 'logic',
    params: [],
    footprint: () => dip(order.length),
    // inputs along one side, outputs facing them, GND and COM at the end: SOURCES.md S20; seven channels from memory
    pins: () => order.map((name, i): Pin => ({ pin: String(i + 1), name, role: role(name) })),
    figures: [
      { name: 'guaranteed off up to', value: chip.input.vil, unit: 'V', source: 'SOURCES.md S21' },
      { name: 'guaranteed on from', value: chip.input.vih, unit: 'V', source: 'SOURCES.md S20, at 200 mA' },
      { name: 'input current at 3.85 V', value: 0.93e-3, unit: 'A', source: 'SOURCES.md S20' },
      { name: 'output saturation at 100 mA, typical', value: 0.9, unit: 'V', source: 'SOURCES.md S20' },
      { name: 'output saturation at 100 mA, most', value: 1.1, unit: 'V', source: 'SOURCES.md S20' },
      mostOutput,
      mostInput,
      mostPower,
      mostPinCurrent,
      mostPackageCurrent,
    ],
    mostPower,
    connect(w) {
      const pin = (name: string) => String(order.indexOf(name) + 1);
      w.chip(chip);
      for (const n of names) {
        w.junction(pin(`IN${n}`), pin('GND'), intoBase);
        w.conductor(pin(`IN${n}`), pin('GND'), 1 / BASE_OHMS);
        w.junction(pin(`OUT${n}`), pin('COM'), clampDiode);
      }
    },
  });
}

export const darlingtonArray7 = array(7);
export const darlingtonArray8 = array(8);
