/** A byte-wide memory as its data sheet gives it: pin names in order, levels, currents and figures, turned into a part. */
import { dip } from '../../board/footprints.ts';
import { beyond } from '../../devices/device-models.ts';
import { channelThrough } from '../figures/channels.ts';
import {
  type Chip,
  type ChipBench,
  type ChipSpec,
  definePart,
  type Figure,
  type Params,
  type PartKind,
  type Pin,
  type SupplyCurrent,
} from '../part.ts';
import { ALIVE, type Enable } from './read-path.ts';

/** Direct-current figures at a supply of 5 V ± 10 %. */
export interface DcFigures {
  /** [V] */
  readonly vil: number;
  readonly vih: number;
  /** of an input and of a high-impedance output [A] */
  readonly leakage: number;
  readonly releasedLeakage: number;
  /** of an input and of a data pin [F] */
  readonly capacitance: number;
  readonly dataCapacitance: number;
  /** at least 2.4 V at this current, at most `low.volts` at that one [V, A] */
  readonly high: number;
  readonly low: { readonly volts: number; readonly amps: number };
  /** supply current, most [A] */
  readonly working: number;
  readonly resting: number;
  /** what a meter shows of those; from memory. Absent: the usual part of the most */
  readonly typical?: Partial<SupplyCurrent>;
  readonly source: string;
  /** what its output stages are made of; absent: CMOS, whose high level reaches the supply */
  readonly stage?: 'n-channel' | 'bipolar';
  /** the capacitances' own source, if they have one */
  readonly capacitanceSource?: string;
}

/**
 * What the erasable memories promise alike: TTL levels, one TTL load, the same leakage and capacitance. Each names its own source for them, its
 * supply currents and whatever it has otherwise.
 */
export const USUAL_DC: Omit<DcFigures, 'working' | 'resting' | 'source'> = {
  vil: 0.8,
  vih: 2.0,
  leakage: 10e-6,
  releasedLeakage: 10e-6,
  capacitance: 6e-12,
  dataCapacitance: 12e-12,
  high: 0.4e-3,
  low: { volts: 0.4, amps: 2.1e-3 },
};

/** Where the pins of a specimen are in its chip's list of inputs. */
export interface Places {
  readonly address: readonly number[];
  readonly data: readonly number[];
  at(name: string): number;
  /** a pin that enables something; its name says which level does: /CE is active low */
  enable(name: string): Enable;
}

export interface MemoryDataSheet {
  readonly id: string;
  readonly title: string;
  readonly synonyms?: readonly string[];
  /** names in order of pin number; address A0 …, data D0 …, a slash before what is active low */
  readonly pins: string;
  readonly params?: PartKind['params'];
  /** inputs beside address and data, and the levels they must have for the outputs to drive the bus */
  readonly toRead: Readonly<Record<string, 'L' | 'H'>>;
  /** bytes that a plan keeps past the last address */
  readonly beyond?: number;
  /** data pins are inputs too */
  readonly writable: boolean;
  /** holds its bytes only while it has its supply */
  readonly forgets?: boolean;
  /** outputs beside the word */
  readonly moreOutputs?: readonly string[];
  readonly marks?: NonNullable<ChipSpec['marks']>;
  /** of the pins in marks */
  readonly mostVolts?: NonNullable<ChipSpec['mostVolts']>;
  readonly supplyMarks?: readonly number[];
  readonly dc: DcFigures;
  readonly mostSupply?: Figure;
  readonly endurance?: Figure;
  readonly figures: readonly Figure[];
  start(bench: ChipBench, places: Places, contents: Readonly<Record<string, string>> | undefined, p: Params): Chip;
}

const mostPinCurrent = { name: 'steady current of one output', value: 10e-3, unit: 'A', source: 'common practice, no source' } as const;
const mostPackageCurrent = {
  name: 'steady current of all outputs together',
  value: 60e-3,
  unit: 'A',
  source: 'from memory; no sheet seen gives one',
} as const;

/** Those two are for steady use; one output may give 100 mA for a second (SOURCES.md S3). */
const DAMAGE_FACTOR = 2;

/** A pull that reaches the guaranteed point, as a straight line through it. */
const through = (volts: number, amps: number) => ({ g: amps / volts, bend: Number.POSITIVE_INFINITY });

/**
 * High level of stages that do not reach the supply, at 5 V, from memory: N-channel 3.4 to 4 V open and 2 to 4 mA into a red LED over 330 Ω; bipolar
 * 3.4 to 3.7 V and 2 to 4 mA. `promised` is the drop at which the guaranteed curve begins.
 */
const STAGES = {
  'n-channel': {
    promised: 1.4,
    high: channelThrough(
      [
        [1.45, 0.2e-3],
        [2.2, 3e-3],
      ],
      15e-3,
    ),
  },
  bipolar: {
    promised: 1.6,
    high: channelThrough(
      [
        [1.6, 0.2e-3],
        [2.2, 4e-3],
      ],
      40e-3,
    ),
  },
} as const;

/** Memories typically draw a third to a half of the most that their sheets allow: from memory. */
const TYPICAL_SUPPLY = 0.4;
const typicalCurrent = ({ working, resting, typical }: DcFigures): SupplyCurrent => ({
  working: TYPICAL_SUPPLY * working,
  resting: TYPICAL_SUPPLY * resting,
  ...typical,
});

/** Drop at the high level's guaranteed point: 2.4 V at a supply of 4.5 V. */
const PROMISED_DROP = 4.5 - 2.4;

/** No sheet seen promises more than the guaranteed points; these curves are from memory, and never weaker than what is promised. */
function memoryDrive({ high, low, stage, releasedLeakage }: DcFigures): ChipSpec['drive'] {
  const lowSide = through(low.volts, low.amps);
  const typicalLow = { g: Math.max(1 / 40, 2 * lowSide.g), bend: 1.5 };
  if (!stage)
    return {
      guaranteed: { high: through(PROMISED_DROP, high), low: lowSide },
      typical: { high: { g: 1 / 120, bend: 2.5 }, low: typicalLow },
    };
  const { promised, high: typicalHigh } = STAGES[stage];
  return {
    guaranteed: { high: { ...through(beyond(PROMISED_DROP, promised), high), offset: promised }, low: lowSide },
    typical: { high: typicalHigh, low: typicalLow },
    // from a high output as much as a released one leaks
    bleed: releasedLeakage / 5,
  };
}

/** The sheet for one specimen; p: where a figure of the specimen changes the sheet. */
export function memoryPart(sheet: MemoryDataSheet | ((p: Params) => MemoryDataSheet), fallback: Params = {}): PartKind {
  const sheetFor = typeof sheet === 'function' ? sheet : () => sheet;
  const usual = sheetFor(fallback);
  const names = (p: Params) => sheetFor(p).pins.split(' ');
  return definePart({
    id: usual.id,
    title: usual.title,
    ...(usual.synonyms ? { synonyms: usual.synonyms } : {}),
    group: 'memory',
    params: usual.params ?? [],
    footprint: () => dip(names(fallback).length, 0.6),
    pins: (p) => {
      const roleOf = roles(sheetFor(p));
      return names(p).map((name, i): Pin => ({ pin: String(i + 1), name, role: roleOf(name) }));
    },
    figures: [...dcFigures(usual.dc), ...usual.figures, mostPinCurrent, mostPackageCurrent, ...given(usual.mostSupply, usual.endurance)],
    value: () => '',
    connect(w, p) {
      w.chip(specOf(sheetFor(p), p));
    },
  });
}

const given = (...figures: readonly (Figure | undefined)[]): Figure[] => figures.filter((f) => f !== undefined);

/** A0 … and D0 …, as many as the pins have. */
function buses(sheet: MemoryDataSheet): { address: string[]; data: string[] } {
  const names = new Set(sheet.pins.split(' '));
  const numbered = (letter: string) => Array.from({ length: 24 }, (_, i) => `${letter}${i}`).filter((name) => names.has(name));
  return { address: numbered('A'), data: numbered('D') };
}

function roles(sheet: MemoryDataSheet): (name: string) => Pin['role'] {
  const { data } = buses(sheet);
  return (name) => {
    if (name === 'VCC' || name === 'VPP') return 'supply';
    if (name === 'GND') return 'ground';
    if (name === 'NC') return 'none';
    if (data.includes(name)) return sheet.writable ? 'both' : 'output';
    return sheet.moreOutputs?.includes(name) ? 'output' : 'input';
  };
}

function specOf(sheet: MemoryDataSheet, p: Params): ChipSpec {
  const { dc } = sheet;
  const word = buses(sheet);
  const inputs = [...word.address, ...Object.keys(sheet.toRead), ...(sheet.writable ? word.data : [])];
  const at = (name: string) => inputs.indexOf(name);
  const places: Places = {
    address: word.address.map(at),
    data: word.data.map(at),
    at,
    enable: (name) => ({ input: at(name), active: name.startsWith('/') ? 'L' : 'H' }),
  };
  return {
    supplyPin: 'VCC',
    groundPin: 'GND',
    inputs,
    outputs: [...word.data, ...(sheet.moreOutputs ?? [])],
    word: { ...word, ...(sheet.beyond === undefined ? {} : { beyond: sheet.beyond }), ...(sheet.forgets ? { forgets: true } : {}) },
    toRead: sheet.toRead,
    input: { vil: dc.vil, vih: dc.vih, leakage: dc.leakage, capacitance: dc.capacitance },
    drive: memoryDrive(dc),
    promises: { high: 2.4, source: dc.source },
    released: { leakage: dc.releasedLeakage, capacitance: dc.dataCapacitance },
    supplyCurrent: { typical: typicalCurrent(dc), most: { working: dc.working, resting: dc.resting } },
    mostPinCurrent,
    mostPackageCurrent,
    damageFactor: DAMAGE_FACTOR,
    ...(sheet.mostVolts ? { mostVolts: sheet.mostVolts } : {}),
    ...(sheet.mostSupply ? { mostSupply: sheet.mostSupply } : {}),
    ...(sheet.endurance ? { endurance: sheet.endurance } : {}),
    supplyMarks: sheet.supplyMarks ?? [ALIVE],
    ...(sheet.marks ? { marks: sheet.marks } : {}),
    supplyRange: [4.5, 5.5],
    start: (bench, contents) => sheet.start(bench, places, contents, p),
  };
}

function dcFigures(dc: DcFigures): Figure[] {
  const { source, capacitanceSource = source } = dc;
  const typical = typicalCurrent(dc);
  return [
    { name: 'low level, highest', value: dc.vil, unit: 'V', source },
    { name: 'high level, lowest', value: dc.vih, unit: 'V', source },
    { name: 'low output, highest', value: dc.low.volts, unit: 'V', source },
    { name: 'current at which it is reached', value: dc.low.amps, unit: 'A', source },
    { name: 'high output, lowest', value: 2.4, unit: 'V', source },
    { name: 'current at which that is reached', value: dc.high, unit: 'A', source },
    { name: 'input leakage, most', value: dc.leakage, unit: 'A', source },
    { name: 'output leakage, most', value: dc.releasedLeakage, unit: 'A', source },
    { name: 'input capacitance, most', value: dc.capacitance, unit: 'F', source: capacitanceSource },
    { name: 'data pin capacitance, most', value: dc.dataCapacitance, unit: 'F', source: capacitanceSource },
    { name: 'supply current, active, most', value: dc.working, unit: 'A', source },
    { name: 'supply current, standby, most', value: dc.resting, unit: 'A', source },
    { name: 'supply current, active, typical', value: typical.working, unit: 'A', source: 'from memory' },
    { name: 'supply current, standby, typical', value: typical.resting, unit: 'A', source: 'from memory' },
  ];
}
