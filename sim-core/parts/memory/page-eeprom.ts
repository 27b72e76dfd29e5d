/** What the 28-pin EEPROMs with pages share: levels, times, how they are written, and the vectors that show it. */
import type { Figure, Params, Vector, VectorStep } from '../part.ts';
import { type EepromTraits, startEeprom } from './eeprom.ts';
import { ALIVE } from './reading.ts';
import type { DcFigures, Sheet } from './sheet.ts';
import type { EepromTiming } from './timing.ts';
import { readVectors } from './vectors.ts';

/** write: the text the write figures come from. */
export const pageTiming = (write: string): EepromTiming => ({
  access: 150e-9,
  chipEnable: 150e-9,
  outputEnable: 70e-9,
  float: 50e-9,
  addressSetup: 0,
  addressHold: 50e-9,
  dataSetup: 50e-9,
  dataHold: 0,
  pulseLeast: 100e-9,
  glitch: 15e-9,
  cycle: 10e-3,
  writeInhibit: 3.8,
  powerUp: 5e-3,
  source: write,
});

export const pageDc: DcFigures = {
  vil: 0.8,
  vih: 2.0,
  leakage: 10e-6,
  releasedLeakage: 10e-6,
  capacitance: 6e-12,
  dataCapacitance: 12e-12,
  high: 0.4e-3,
  low: { volts: 0.4, amps: 2.1e-3 },
  working: 40e-3,
  resting: 2e-3,
  source: 'SOURCES.md S4',
};

/** 64 bytes with the same upper address bits, each within 150 µs of the one before: SOURCES.md S4, S5. */
export const PAGE = { bytes: 64, load: 150e-6 } as const;

export const endurance: Figure = { name: 'writes of one cell, at least', value: 10_000, unit: '', source: 'SOURCES.md S5' };

/** /OE and A9 take up to 13.5 V; 12.0 V ± 0.5 V on them reaches what is not reached otherwise: SOURCES.md S2, S4. */
const FAR_ABOVE = 11.5;
export const farAbove = [
  { pin: '/OE', volts: FAR_ABOVE },
  { pin: 'A9', volts: FAR_ABOVE },
] as const;
const ERASE = { mark: 0, pulse: 10e-3 } as const;

export const writtenBefore = [
  { name: 'written', type: 'number', unit: '', fallback: 0, least: 0, most: 1_000_000, whole: true },
] as const satisfies NonNullable<Sheet['params']>;

/** identification: where 64 more bytes appear with 12 V on A9. */
export const startPaged =
  (timing: EepromTiming, traits: Pick<EepromTraits, 'protection' | 'busyOutput'> & { readonly identification: number }): Sheet['start'] =>
  (bench, { address, data, at }, contents, p: Params) =>
    startEeprom(
      bench,
      { address, data, chipEnable: at('/CE'), outputEnable: at('/OE'), writeEnable: at('/WE') },
      {
        ...traits,
        timing,
        endurance,
        page: PAGE,
        toggles: true,
        chipErase: ERASE,
        identification: { mark: 1, at: traits.identification, bytes: 64 },
      },
      contents,
      Number(p.written),
    );

export const pagedMarks = (timing: EepromTiming) => [ALIVE, timing.writeInhibit];

export const pageFigures = (t: EepromTiming, read: string, write: string): Figure[] => [
  { name: 'access time', value: t.access, unit: 's', source: read },
  { name: 'output enable time', value: t.outputEnable, unit: 's', source: read },
  { name: 'output float time', value: t.float, unit: 's', source: read },
  { name: 'write pulse, least', value: t.pulseLeast, unit: 's', source: write },
  { name: 'address set-up', value: t.addressSetup, unit: 's', source: write },
  { name: 'address hold', value: t.addressHold, unit: 's', source: write },
  { name: 'data set-up', value: t.dataSetup, unit: 's', source: write },
  { name: 'data hold', value: t.dataHold, unit: 's', source: write },
  { name: 'pulses not noticed, shorter than', value: t.glitch, unit: 's', source: 'SOURCES.md S4, S5, typical' },
  { name: 'byte load time, most', value: PAGE.load, unit: 's', source: write },
  { name: 'page', value: PAGE.bytes, unit: 'B', source: write },
  { name: 'write cycle, most', value: t.cycle, unit: 's', source: write },
  { name: 'supply below which it does not write', value: t.writeInhibit, unit: 'V', source: 'SOURCES.md S4, S5, typical' },
  { name: 'lock-out after the supply has come up', value: t.powerUp, unit: 's', source: 'SOURCES.md S4, S5, typical' },
  { name: '/OE and A9, far above the high level', value: 12, unit: 'V', source: 'SOURCES.md S4' },
  { name: '/OE and A9, absolute most', value: 13.5, unit: 'V', source: 'SOURCES.md S4' },
  { name: '/WE low for clearing the whole chip, least', value: ERASE.pulse, unit: 's', source: 'SOURCES.md S4' },
];

const REST = { '/CE': 0, '/OE': 1, '/WE': 1 };
const load = (address: number, byte: number): VectorStep[] => [
  { set: { ...REST, A: address, D: byte } },
  { wait: 200e-9 },
  { set: { '/WE': 0 } },
  { wait: 200e-9 },
  { set: { '/WE': 1 } },
  { wait: 200e-9 },
];
const cycle: VectorStep[] = [{ set: { D: 'open' } }, { wait: 0.011 }];
const read = (address: number, byte: number): VectorStep[] => [
  { set: { A: address, '/OE': 0 } },
  { wait: 1e-6 },
  { see: { D: byte } },
  { set: { '/OE': 1 } },
  { wait: 1e-6 },
];
/** Once more on the bus, and off. */
const poll = (sees: Extract<VectorStep, { see: unknown }>['see']): VectorStep[] => [
  { set: { '/OE': 0 } },
  { wait: 1e-6 },
  { see: sees },
  { set: { '/OE': 1 } },
  { wait: 1e-6 },
];

/** places: the two addresses of the protection sequences; busy: the pin that shows the internal cycle. */
export function pageVectors(t: EepromTiming, places: { readonly first: number; readonly second: number }, busy?: string): Vector[] {
  const show = (level: 'L' | 'Z'): VectorStep[] => (busy ? [{ see: { [busy]: level } }] : []);
  const sequence = (...bytes: readonly number[]): VectorStep[] =>
    bytes.flatMap((byte) => load(byte === 0x55 ? places.second : places.first, byte));
  const protect = sequence(0xaa, 0x55, 0xa0);
  const unprotect = sequence(0xaa, 0x55, 0x80, 0xaa, 0x55, 0x20);
  return [
    ...readVectors({ '/CE': 0, '/OE': 0, '/WE': 1 }, { '/CE': 1 }, t),
    {
      says: 'a byte is stored by the internal cycle; until then the last bit reads inverted and bit 6 alternates',
      contents: { '0000': '1122' },
      steps: [
        { set: REST },
        ...load(1, 0x95),
        ...show('L'),
        { set: { D: 'open' } },
        ...poll({ D7: 'L', D6: 'H', D5: 'X', D0: 'X' }),
        ...poll({ D7: 'L', D6: 'L' }),
        { wait: 0.005 },
        ...poll({ D7: 'L', D6: 'H' }),
        { wait: 0.006 },
        ...show('Z'),
        ...read(1, 0x95),
        ...read(0, 0x11),
      ],
    },
    {
      says: '/CE ends a write as well as /WE does',
      contents: { '0000': '00' },
      steps: [
        { set: { '/CE': 1, '/OE': 1, '/WE': 0, A: 0, D: 0x42 } },
        { wait: 1e-6 },
        { set: { '/CE': 0 } },
        { wait: 200e-9 },
        { set: { '/CE': 1 } },
        { wait: 200e-9 },
        { set: { '/WE': 1, D: 'open' } },
        { wait: 0.011 },
        { set: { '/CE': 0 } },
        ...read(0, 0x42),
      ],
    },
    {
      says: 'bytes of one page that come within the load time are stored together; one that comes later is not',
      contents: { '0040': '00000000' },
      steps: [
        { set: REST },
        ...load(0x40, 0x01),
        { wait: 140e-6 },
        ...load(0x41, 0x02),
        { wait: 140e-6 },
        ...load(0x42, 0x03),
        { wait: 160e-6 },
        ...load(0x43, 0x04),
        ...cycle,
        ...read(0x40, 0x01),
        ...read(0x41, 0x02),
        ...read(0x42, 0x03),
        ...read(0x43, 0x00),
      ],
    },
    {
      says: 'protected, it stores only what follows the three enabling bytes; six bytes end the protection',
      contents: { '0010': '00' },
      steps: [
        { set: REST },
        ...protect,
        ...cycle,
        ...load(0x10, 0x77),
        ...cycle,
        ...read(0x10, 0x00),
        ...protect,
        ...load(0x10, 0x78),
        ...cycle,
        ...read(0x10, 0x78),
        ...load(0x10, 0x79),
        ...cycle,
        ...read(0x10, 0x78),
        ...unprotect,
        ...cycle,
        ...load(0x10, 0x7a),
        ...cycle,
        ...read(0x10, 0x7a),
        ...read(places.first, 0xff),
        ...read(places.second, 0xff),
      ],
    },
    {
      says: 'a sequence that breaks off was bytes',
      steps: [{ set: REST }, ...sequence(0xaa), ...cycle, ...read(places.first, 0xaa)],
    },
    {
      says: 'a pulse too short to be noticed, and one with /OE low, store nothing',
      contents: { '0000': '00' },
      steps: [
        { set: { ...REST, A: 0, D: 0x55 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: t.glitch - 2e-9 },
        { set: { '/WE': 1 } },
        { wait: 1e-6 },
        { set: { D: 'open' } },
        { wait: 0.02 },
        ...read(0, 0x00),
        { set: { '/OE': 0 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: 1e-6 },
        { set: { '/WE': 1 } },
        { wait: 0.02 },
        { see: { D: 0x00 } },
      ],
    },
    {
      says: 'for 5 ms after its supply has come up it stores nothing',
      contents: { '0000': '00' },
      steps: [
        { set: { ...REST, A: 0, D: 'open' } },
        { supply: 'off' },
        { wait: 1 },
        { supply: 'on' },
        { wait: 0.004 },
        ...load(0, 0x55),
        ...cycle,
        ...read(0, 0x00),
        ...load(0, 0x55),
        ...cycle,
        ...read(0, 0x55),
      ],
    },
    {
      says: '12 V on /OE and 10 ms on /WE clear the whole chip',
      high: 12,
      contents: { '0000': '00', '0123': '456789' },
      steps: [
        { set: { ...REST, A: 0, '/OE': 'high' } },
        { wait: 1e-5 },
        { set: { '/WE': 0 } },
        { wait: 0.0105 },
        { set: { '/WE': 1 } },
        { wait: 1e-5 },
        { set: { '/OE': 1 } },
        { wait: 1e-5 },
        ...read(0, 0xff),
        ...read(0x124, 0xff),
      ],
    },
  ];
}
