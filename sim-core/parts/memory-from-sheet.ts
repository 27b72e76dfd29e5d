/** A memory from its data sheet: kind, organisation, pins, times and levels are figures of the specimen, so that any byte-wide memory makes a part. */
import { dip } from '../board/footprints.ts';
import { type DcFigures, type MemoryDataSheet, memoryPart, type Places, USUAL_DC } from './memory/data-sheet.ts';
import { EepromChip } from './memory/eeprom.ts';
import { endurance } from './memory/eeprom-part.ts';
import { startReadOnly } from './memory/prom-behaviour.ts';
import { ALIVE, type ReadTiming } from './memory/read-path.ts';
import { contradiction, enablesIn, packageInches, SHEET_KINDS, type SheetKind } from './memory/sheet-checks.ts';
import { STATIC_MARKS, StaticRamChip } from './memory/static-ram-behaviour.ts';
import { type EepromTiming, eeprom2kTiming } from './memory/timing.ts';
import type { Chip, ChipBench, ParamSpec, Params, PartKind } from './part.ts';

const ENTERED = 'common practice, no source, until a sheet is entered';

const number = (name: string, unit: string, fallback: number, least: number, most: number, called: string): ParamSpec => ({
  name,
  type: 'number',
  unit,
  fallback,
  least,
  most,
  called,
});

/** As it comes, a sheet with the figures of the EEPROM 2K × 8. */
const params: readonly ParamSpec[] = [
  { name: 'kind', type: 'choice', choices: SHEET_KINDS, fallback: 'EEPROM' },
  { name: 'organisation', type: 'text', most: 20, fallback: '2K x 8' },
  {
    name: 'pins',
    type: 'text',
    most: 200,
    fallback: 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE /WE A9 A8 VCC',
  },
  number('access', 's', 150e-9, 1e-9, 10e-6, 'access time'),
  number('select', 's', 150e-9, 1e-9, 10e-6, 'select to output'),
  number('enable', 's', 70e-9, 1e-9, 10e-6, 'output enable to output'),
  number('float', 's', 50e-9, 0, 10e-6, 'output float time'),
  number('pulse', 's', 100e-9, 1e-9, 1, 'write pulse, least'),
  number('longest', 's', 0, 0, 1, 'write pulse, most (0: none named)'),
  number('setup', 's', 50e-9, 0, 1e-3, 'data set-up'),
  number('hold', 's', 10e-9, 0, 1e-3, 'data hold'),
  number('cycle', 's', 1e-3, 1e-9, 1, 'write cycle, most'),
  number('low', 'V', USUAL_DC.vil, 0.1, 5, 'low level, highest'),
  number('high', 'V', USUAL_DC.vih, 0.1, 5, 'high level, lowest'),
  number('outputLow', 'V', USUAL_DC.low.volts, 0.01, 2, 'low output, highest'),
  number('sinks', 'A', USUAL_DC.low.amps, 1e-5, 0.1, 'current at which it is reached'),
  number('sources', 'A', USUAL_DC.high, 1e-5, 0.1, 'current at 2.4 V'),
  number('working', 'A', 30e-3, 1e-6, 1, 'supply current, active'),
  number('resting', 'A', 2e-3, 1e-7, 1, 'supply current, standby'),
];

/** A sheet of its own for each specimen; p: complete and free of contradictions. */
function sheetOf(p: Params): MemoryDataSheet {
  const at = (name: string) => Number(p[name]);
  const kind = p.kind as SheetKind;
  const pins = String(p.pins).trim().replace(/\s+/g, ' ');
  const { selects, all } = enablesIn(pins.split(' '));
  const toRead = Object.fromEntries(all.map((name) => [name, name === '/WE' || !name.startsWith('/') ? 'H' : 'L'] as const));
  const timing: ReadTiming = {
    access: at('access'),
    chipEnable: at('select'),
    outputEnable: at('enable'),
    float: at('float'),
    source: ENTERED,
  };
  const dc: DcFigures = {
    ...USUAL_DC,
    vil: at('low'),
    vih: at('high'),
    high: at('sources'),
    low: { volts: at('outputLow'), amps: at('sinks') },
    working: at('working'),
    resting: at('resting'),
    source: ENTERED,
  };
  return {
    id: 'memory-from-sheet',
    title: 'Memory from its data sheet',
    synonyms: ['own memory', 'other memory', 'custom memory', 'data sheet'],
    params,
    pins,
    toRead,
    writable: kind !== 'ROM',
    ...(kind === 'SRAM' ? { forgets: true } : {}),
    supplyMarks: kind === 'SRAM' ? STATIC_MARKS : kind === 'EEPROM' ? [ALIVE, eeprom2kTiming.writeInhibit] : [ALIVE],
    dc,
    figures: [],
    start: (bench, places, contents) => startAs(kind, kind === 'ROM' ? all : selects, bench, places, contents, timing, at),
  };
}

/** A fresh chip of its kind; at: the sheet's figures by name. */
function startAs(
  kind: SheetKind,
  selects: readonly string[],
  bench: ChipBench,
  { address, data, at: place, enable }: Places,
  contents: Readonly<Record<string, string>> | undefined,
  timing: ReadTiming,
  at: (name: string) => number,
): Chip {
  const select = selects.map(enable);
  const pulseLeast = at('pulse');
  if (kind === 'ROM') return startReadOnly(bench, { address, select }, timing, contents);
  if (kind === 'SRAM') {
    const write = { pulseLeast, addressSetup: 0, addressToEnd: pulseLeast, dataSetup: at('setup'), dataHold: at('hold') };
    const pins = { address, data, select, outputEnable: enable('/OE'), writeEnable: enable('/WE') };
    return new StaticRamChip(bench, pins, { ...timing, ...write, writeSource: ENTERED }, contents);
  }
  const { pulseMost: _, least, ...usual } = eeprom2kTiming;
  const own: EepromTiming = {
    ...usual,
    ...timing,
    least: { ...least, 'data-setup': at('setup'), 'data-hold': at('hold') },
    pulseLeast,
    ...(at('longest') > 0 ? { pulseMost: at('longest') } : {}),
    cycle: at('cycle'),
  };
  const pins = { address, data, chipEnable: place(selects[0] ?? ''), outputEnable: place('/OE'), writeEnable: place('/WE') };
  return new EepromChip(bench, pins, { timing: own, endurance: endurance('SOURCES.md S2, S3, S5: of others of its kind') }, contents, 0);
}

export const memoryFromSheet: PartKind = {
  ...memoryPart(sheetOf, Object.fromEntries(params.map((p) => [p.name, p.fallback]))),
  footprint(p) {
    const count = String(p.pins).trim().split(/\s+/).length;
    return dip(count, packageInches(count));
  },
  value: (p) => `${p.kind} ${String(p.organisation).replace(/\s*[x×]\s*/i, ' × ')}`,
  contradiction,
};
