/** What UV EPROMs share: a quartz window, bits that pulses turn from 1 to 0 while VPP is at its programming voltage, and the vectors that show it. */
import type { ChipBench, Figure, Level, Vector, VectorStep } from '../part.ts';
import type { MemoryDataSheet, Places } from './data-sheet.ts';
import { type Programming, PromChip } from './prom-behaviour.ts';
import type { ReadTiming } from './read-path.ts';
import { allActive, type Enable, gather } from './read-path.ts';
import { DOSE, erase, lightFigures, WHOLE } from './ultraviolet.ts';
import { readVectors } from './vectors.ts';

export interface UvFigures extends ReadTiming {
  /** VPP: lowest for reading, lowest for programming, what it is set to, most it may ever have [V] */
  readonly vpp: { readonly read: number; readonly program: number; readonly set: number; readonly most: number };
  /** one pulse, and the time under voltage after which a bit is surely programmed [s] */
  readonly pulse: { readonly least: number; readonly most: number; readonly whole: number };
  readonly setup: number;
}

/** VPP as ChipSpec.marks: above the first it reads, above the second it programs. */
export const vppMarks = ({ vpp }: UvFigures): NonNullable<MemoryDataSheet['marks']> => [
  { pin: 'VPP', volts: vpp.read },
  { pin: 'VPP', volts: vpp.program },
];
const mostVpp = ({ vpp, source }: UvFigures): Figure => ({ name: 'VPP, absolute most', value: vpp.most, unit: 'V', source });
export const vppMost = (f: UvFigures): NonNullable<MemoryDataSheet['mostVolts']> => ({ VPP: mostVpp(f) });
const READS = 0;
const PROGRAMS = 1;

/** asks: levels of the control pins that ask for programming. shows: they ask for nothing else, so that a pulse without VPP can be told from rest. */
export function startUv(
  bench: ChipBench,
  { address, data, at, enable }: Places,
  f: UvFigures,
  control: { readonly writeEnable?: Enable; readonly asks: Readonly<Record<string, 'L' | 'H'>>; readonly shows: boolean },
  contents: Readonly<Record<string, string>> | undefined,
) {
  const asks = Object.entries(control.asks).map(([name, active]): Enable => ({ input: at(name), active }));
  const programming: Programming = {
    erased: 1,
    pulseLeast: f.pulse.least,
    pulseMost: f.pulse.most,
    whole: f.pulse.whole,
    setup: f.setup,
    source: f.source,
    dose: DOSE,
    asked: () => allActive(bench, asks),
    voltage: () => bench.above(PROGRAMS),
    readable: () => bench.above(READS),
    ...(control.shows ? { lacks: () => ({ measured: bench.volts(PROGRAMS), limit: f.vpp.program }) } : {}),
    byte: () => gather(bench, data),
    wholeByte: true,
    bits() {
      const { value, unknown } = gather(bench, data);
      return { value: ~value & ~unknown & 0xff, unknown };
    },
    isData: (input) => data.includes(input),
  };
  const { writeEnable } = control;
  const pins = { address, select: [enable('/CE')], outputEnable: enable('/OE'), ...(writeEnable ? { writeEnable } : {}) };
  return new PromChip(bench, pins, f, programming, contents);
}

export const uvFigures = (f: UvFigures): Figure[] => [
  { name: 'access time', value: f.access, unit: 's', source: f.source },
  { name: 'output enable time', value: f.outputEnable, unit: 's', source: f.source },
  { name: 'output float time', value: f.float, unit: 's', source: f.source },
  { name: 'VPP for reading, least', value: f.vpp.read, unit: 'V', source: f.source },
  { name: 'VPP for programming', value: f.vpp.set, unit: 'V', source: f.source },
  mostVpp(f),
  { name: 'programming pulse, least', value: f.pulse.least, unit: 's', source: f.source },
  { name: 'programming pulse, most', value: f.pulse.most, unit: 's', source: f.source },
  { name: 'pulses together, least', value: f.pulse.whole, unit: 's', source: f.source },
  { name: 'address and data set-up', value: f.setup, unit: 's', source: f.source },
  ...lightFigures,
];

/** pulse: the pin that is pulsed, its level at rest and during the pulse; idle: the other pins as programming needs them. */
export function uvVectors(
  f: UvFigures,
  on: Readonly<Record<string, number>>,
  pulse: { readonly pin: string; readonly rest: 0 | 1 },
  idle: Readonly<Record<string, number>>,
): Vector[] {
  const program = (address: number, byte: number, seconds: number, vpp: 'high' | 1 = 'high'): VectorStep[] => [
    { set: { ...idle, [pulse.pin]: pulse.rest, A: address } },
    { wait: 1e-6 },
    { set: { D: byte, VPP: vpp } },
    { wait: 10e-6 },
    { set: { [pulse.pin]: 1 - pulse.rest } },
    { wait: seconds },
    { set: { [pulse.pin]: pulse.rest } },
    { wait: 10e-6 },
    { set: { D: 'open', VPP: 1 } },
  ];
  const read = (address: number, sees: number | Readonly<Record<string, Level>>): VectorStep[] => [
    { set: { ...on, A: address } },
    { wait: 10e-6 },
    { see: typeof sees === 'number' ? { D: sees } : sees },
    { set: { ...idle, [pulse.pin]: pulse.rest } },
    { wait: 1e-6 },
  ];
  const start: VectorStep = { set: { ...on, A: 0 } };
  const enough = f.pulse.whole * 1.02;
  return [
    ...readVectors(on, { '/CE': 1 }, f),
    {
      says: 'a pulse turns ones into zeros, never zeros into ones',
      high: f.vpp.set,
      steps: [start, ...program(5, 0xa5, enough), ...read(5, 0xa5), ...program(5, 0x5f, enough), ...read(5, 0x05), ...read(4, 0xff)],
    },
    {
      says: 'without VPP a pulse changes nothing',
      high: f.vpp.set,
      steps: [start, ...program(5, 0x00, enough, 1), ...read(5, 0xff)],
    },
    {
      says: 'half the time under voltage leaves the bits uncertain, the other half programs them',
      high: f.vpp.set,
      steps: [start, ...program(1, 0x0f, enough / 2), ...read(1, { D7: 'X', D0: 'H' }), ...program(1, 0x0f, enough / 2), ...read(1, 0x0f)],
    },
    {
      says: 'light erases all of it after its whole dose, and nothing through a label',
      high: f.vpp.set,
      contents: { '000': '00FF0055' },
      steps: [start, erase(WHOLE, true), ...read(0, 0x00), ...read(3, 0x55), erase(WHOLE), ...read(0, 0xff), ...read(3, 0xff)],
    },
    {
      says: 'a tenth of the dose erases nothing yet',
      contents: { '000': '00FF0055' },
      steps: [start, erase(WHOLE / 10), ...read(0, 0x00), ...read(3, 0x55)],
    },
    {
      says: 'VPP low makes what is read undefined',
      contents: { '000': '00' },
      steps: [{ set: { ...on, A: 0, VPP: 0 } }, { wait: 10e-6 }, { see: { D: 'X' } }],
    },
  ];
}
