/** EEPROM 2K × 8 in the 24-pin byte-wide package: written byte by byte, electrically, in its socket. */
import { dip } from '../bench/footprints.ts';
import { bytesBeyond, startEeprom } from './memory/eeprom.ts';
import { ALIVE } from './memory/reading.ts';
import { eeprom2kTiming as timing, writeTimeFigures } from './memory/timing.ts';
import { readVectors } from './memory/vectors.ts';
import { writtenBefore } from './memory/wearing.ts';
import { writeVectors } from './memory/write-vectors.ts';
import { type ChipSpec, definePart, type Pin, type Vector, type VectorStep } from './part.ts';

/** Pins 1 to 24: SOURCES.md S1, S2 (pin 21 is /WE, as S2 confirms). */
const PINS = 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE /WE A9 A8 VCC'.split(' ');
const ADDRESS = Array.from({ length: 11 }, (_, i) => `A${i}`);
const DATA = Array.from({ length: 8 }, (_, i) => `D${i}`);
const CONTROL = ['/CE', '/OE', '/WE'];
const INPUTS = [...ADDRESS, ...CONTROL, ...DATA];
const at = (name: string) => INPUTS.indexOf(name);

const PRACTICE = 'common practice, no source';
const mostPinCurrent = { name: 'steady current of one output', value: 10e-3, unit: 'A', source: 'common practice, no source' } as const;
const mostPackageCurrent = {
  name: 'steady current of all outputs together',
  value: 60e-3,
  unit: 'A',
  source: 'from memory; no sheet seen gives one',
} as const;
/** The two above are for steady use; one output may give 100 mA for a second (SOURCES.md S3). */
const HARM_FROM = 2;
const mostSupply = { name: 'supply, absolute most', value: 7, unit: 'V', source: 'SOURCES.md S3' } as const;

const endurance = { name: 'writes of one cell, at least', value: 10_000, unit: '', source: PRACTICE } as const;

const input = { vil: 0.8, vih: 2.0, leakage: 10e-6, capacitance: 6e-12 } as const;
const supplyCurrent = { working: 30e-3, resting: 2e-3 } as const;

/** The rest position of a pull that reaches the guaranteed point, as a straight line through it. */
const through = (volts: number, amps: number) => ({ g: amps / volts, bend: Number.POSITIVE_INFINITY });

/** /OE and A9 take up to 13.5 V; 12.0 V ± 0.5 V on /OE clears the chip, on A9 it reaches 32 more bytes: SOURCES.md S2. */
const FAR_ABOVE = 11.5;
const mostHigh = { name: '/OE and A9, absolute most', value: 13.5, unit: 'V', source: 'SOURCES.md S2' } as const;
const identification = { mark: 1, at: 0x7e0, bytes: 32 } as const;

const chip = (written: number): ChipSpec => ({
  supplyPin: 'VCC',
  groundPin: 'GND',
  inputs: INPUTS,
  outputs: DATA,
  word: { address: ADDRESS, data: DATA, beyond: bytesBeyond({ identification }) },
  toRead: { '/CE': 'L', '/OE': 'L', '/WE': 'H' },
  input,
  promises: { high: 2.4, source: PRACTICE },
  drive: {
    // high: 2.4 V at 0.4 mA from a 4.5 V supply; low: 0.4 V at 2.1 mA
    guaranteed: { high: through(4.5 - 2.4, 0.4e-3), low: through(0.4, 2.1e-3) },
    // from memory: no sheet seen promises more than the guaranteed points
    typical: { high: { g: 1 / 120, bend: 2.5 }, low: { g: 1 / 40, bend: 1.5 } },
  },
  released: { leakage: 10e-6, capacitance: 12e-12 },
  supplyCurrent,
  mostPinCurrent,
  mostPackageCurrent,
  harmFrom: HARM_FROM,
  mostVolts: { '/OE': mostHigh, A9: mostHigh },
  mostSupply,
  endurance,
  supplyMarks: [ALIVE, timing.writeInhibit],
  supplyRange: [4.5, 5.5],
  marks: [
    { pin: '/OE', volts: FAR_ABOVE },
    { pin: 'A9', volts: FAR_ABOVE },
  ],
  start: (bench, contents) =>
    startEeprom(
      bench,
      { address: ADDRESS.map(at), data: DATA.map(at), chipEnable: at('/CE'), outputEnable: at('/OE'), writeEnable: at('/WE') },
      { timing, endurance, chipErase: { mark: 0, pulse: 10e-3 }, identification },
      contents,
      written,
    ),
});

const REST = { '/CE': 0, '/OE': 1, '/WE': 1 };
const pulse = (seconds: number): VectorStep[] => [
  { wait: 1e-6 },
  { set: { '/WE': 0 } },
  { wait: seconds },
  { set: { '/WE': 1 } },
  { wait: 20e-9 },
  { set: { D: 'open' } },
];
const vectors: readonly Vector[] = [
  ...readVectors({ '/CE': 0, '/OE': 0, '/WE': 1 }, { '/CE': 1 }, timing),
  ...writeVectors(timing),
  {
    says: 'a byte is stored within a millisecond; until then only the last bit is known, inverted',
    contents: { '000': '1122' },
    steps: [
      { set: { ...REST, A: 1, D: 0x95 } },
      ...pulse(300e-9),
      { set: { '/OE': 0 } },
      { wait: 1e-6 },
      { see: { D7: 'L', D6: 'X', D0: 'X' } },
      { wait: 0.9e-3 },
      { see: { D7: 'L' } },
      { wait: 0.2e-3 },
      { see: { D: 0x95 } },
      { set: { A: 0 } },
      { wait: 1e-6 },
      { see: { D: 0x11 } },
    ],
  },
  {
    says: 'a pulse shorter than its least width leaves the byte uncertain, and one of a few nanoseconds is not noticed',
    contents: { '000': '1122' },
    steps: [
      { set: { ...REST, A: 0, D: 0x95 } },
      ...pulse(80e-9),
      { wait: 2e-3 },
      { set: { '/OE': 0 } },
      { wait: 1e-6 },
      { see: { D: 'X' } },
      { set: { '/OE': 1 } },
      { wait: 1e-6 },
      { set: { A: 1, D: 0x95 } },
      ...pulse(15e-9),
      { wait: 2e-3 },
      { set: { '/OE': 0 } },
      { wait: 1e-6 },
      { see: { D: 0x22 } },
    ],
  },
];

const role = (name: string): Pin['role'] =>
  name === 'VCC' ? 'supply' : name === 'GND' ? 'ground' : DATA.includes(name) ? 'both' : 'input';

export const eeprom2k = definePart({
  id: 'eeprom-2kx8',
  title: 'EEPROM 2K × 8, 24-pin',
  group: 'memory',
  params: writtenBefore,
  footprint: () => dip(24, 0.6),
  pins: () => PINS.map((name, i): Pin => ({ pin: String(i + 1), name, role: role(name) })),
  figures: [
    { name: 'low level, highest', value: input.vil, unit: 'V', source: PRACTICE },
    { name: 'high level, lowest', value: input.vih, unit: 'V', source: PRACTICE },
    { name: 'input leakage, most', value: input.leakage, unit: 'A', source: PRACTICE },
    { name: 'input capacitance, most', value: input.capacitance, unit: 'F', source: PRACTICE },
    { name: 'supply current, working', value: supplyCurrent.working, unit: 'A', source: PRACTICE },
    { name: 'supply current, standing by', value: supplyCurrent.resting, unit: 'A', source: PRACTICE },
    { name: 'access time', value: timing.access, unit: 's', source: timing.source },
    { name: 'write pulse, least', value: timing.pulseLeast, unit: 's', source: timing.source },
    { name: 'write pulse, most', value: timing.pulseMost ?? 0, unit: 's', source: timing.source },
    ...writeTimeFigures(timing),
    { name: 'write cycle, most', value: timing.cycle, unit: 's', source: timing.source },
    mostPinCurrent,
    mostPackageCurrent,
    mostHigh,
    mostSupply,
    endurance,
  ],
  value: () => '',
  vectors,
  wire(w, p) {
    w.chip(chip(Number(p.written)));
  },
});
