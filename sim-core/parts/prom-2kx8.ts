/** Fuse PROM 2K × 8, 24-pin, bipolar: a pulse of high voltage on an output blows the fuse of its bit, once and for ever. */

import { memoryPart } from './memory/data-sheet.ts';
import { type Programming, PromChip } from './memory/prom-behaviour.ts';
import type { ReadTiming } from './memory/read-path.ts';
import type { ChipBench, Figure } from './part.ts';

const MEMORY = 'from memory; makers differ';
export const promTiming: ReadTiming = { access: 50e-9, chipEnable: 25e-9, outputEnable: 25e-9, float: 25e-9, source: MEMORY };
/** /CE1 and the output to be programmed, at least [V]; the time that blows a fuse for certain [s]. */
const ENABLE_AT = 14.5;
const OUTPUT_AT = 19.5;
const BLOWN = 50e-6;

const most = (pin: string, value: number): Figure => ({ name: `${pin}, absolute most`, value, unit: 'V', source: MEMORY });

/** The fuses under voltage are those whose outputs are raised. */
function fuses(bench: ChipBench): Programming {
  const raised = () => ({
    value: Array.from({ length: 8 }, (_, bit) => (bench.above(1 + bit) ? 1 << bit : 0)).reduce((a, b) => a | b),
    unknown: 0,
  });
  return {
    erased: 0,
    pulseLeast: BLOWN,
    whole: BLOWN,
    setup: 0,
    source: MEMORY,
    asked: () => (raised().value ? 'yes' : 'no'),
    voltage: () => bench.above(0),
    byte: raised,
    bits: raised,
    isData: () => false,
  };
}

export const fuseProm2k = memoryPart({
  id: 'prom-2kx8',
  title: 'PROM (fusible link) 2K × 8, 24-pin',
  synonyms: ['fuse PROM', 'OTP'],
  // from memory: pin 21 is A10 here, where byte-wide MOS memories have it at pin 19
  pins: 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 CE3 CE2 /CE1 A10 A9 A8 VCC',
  toRead: { '/CE1': 'L', CE2: 'H', CE3: 'H' },
  writable: false,
  marks: [{ pin: '/CE1', volts: ENABLE_AT }, ...Array.from({ length: 8 }, (_, bit) => ({ pin: `D${bit}`, volts: OUTPUT_AT }))],
  mostVolts: { '/CE1': most('/CE1', 15.5), ...Object.fromEntries(Array.from({ length: 8 }, (_, bit) => [`D${bit}`, most('output', 21)])) },
  dc: {
    vil: 0.8,
    vih: 2.0,
    leakage: 250e-6,
    releasedLeakage: 40e-6,
    capacitance: 5e-12,
    dataCapacitance: 8e-12,
    stage: 'bipolar',
    high: 2e-3,
    low: { volts: 0.5, amps: 16e-3 },
    working: 185e-3,
    resting: 185e-3,
    typical: { working: 90e-3, resting: 90e-3 },
    source: MEMORY,
  },
  figures: [
    { name: 'access time', value: promTiming.access, unit: 's', source: MEMORY },
    { name: 'chip enable time', value: promTiming.chipEnable, unit: 's', source: MEMORY },
    { name: 'output float time', value: promTiming.float, unit: 's', source: MEMORY },
    { name: '/CE1 during programming, least', value: ENABLE_AT, unit: 'V', source: MEMORY },
    { name: 'output being programmed, least', value: OUTPUT_AT, unit: 'V', source: MEMORY },
    most('/CE1', 15.5),
    most('output', 21),
    { name: 'programming pulse, least', value: BLOWN, unit: 's', source: MEMORY },
  ],
  start: (bench, { address, enable }, contents) =>
    new PromChip(bench, { address, select: [enable('/CE1'), enable('CE2'), enable('CE3')] }, promTiming, fuses(bench), contents),
});
