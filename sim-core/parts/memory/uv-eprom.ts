/** What UV EPROMs share: a quartz window, bits that pulses turn from 1 to 0 while VPP is at its programming voltage. */
import type { ChipBench, Figure } from '../part.ts';
import type { MemoryDataSheet, Places } from './data-sheet.ts';
import { type Programming, PromChip } from './prom-behaviour.ts';
import type { ReadTiming } from './read-path.ts';
import { allActive, type Enable, gather } from './read-path.ts';
import { DOSE, lightFigures } from './ultraviolet.ts';

export interface UvFigures extends ReadTiming {
  /** VPP: lowest for reading, lowest for programming, what it is set to, most it may ever have [V] */
  readonly vpp: { readonly read: number; readonly program: number; readonly set: number; readonly most: number };
  /** one pulse, and the time under voltage after which a bit is programmed for certain [s] */
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
