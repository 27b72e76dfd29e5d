/** UV EPROM 8K × 8 in the 28-pin byte-wide package: programmed by low pulses on /PGM at 21 V or, the later kind, at 12.5 V; erased by light. */
import { type MemoryDataSheet, memoryPart, USUAL_DC } from './memory/data-sheet.ts';
import { startUv, type UvFigures, uvFigures, vppMarks, vppMost } from './memory/uv-eprom.ts';

export const EARLIER_UV: UvFigures = {
  access: 250e-9,
  chipEnable: 250e-9,
  outputEnable: 100e-9,
  float: 60e-9,
  vpp: { read: 4.4, program: 20.5, set: 21, most: 22 },
  pulse: { least: 45e-3, most: 55e-3, whole: 45e-3 },
  setup: 2e-6,
  source: 'from memory',
};
/** Pulses of a millisecond, repeated until the byte reads right, then three times as long once more; the supply at 6 V meanwhile is not asked for here. */
export const LATER_UV: UvFigures = {
  ...EARLIER_UV,
  vpp: { read: 4.4, program: 12, set: 12.5, most: 14 },
  pulse: { least: 0.95e-3, most: 78e-3, whole: 3.8e-3 },
};

const sheet = (f: UvFigures): MemoryDataSheet => ({
  id: 'uv-eprom-8kx8',
  title: 'UV EPROM 8K × 8, 28-pin',
  synonyms: ['EPROM', 'UV memory'],
  params: [{ name: 'vpp', type: 'choice', choices: ['21 V', '12.5 V'], fallback: '21 V' }],
  // SOURCES.md S1, S9
  pins: 'VPP A12 A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE A11 A9 A8 NC /PGM VCC',
  toRead: { '/CE': 'L', '/OE': 'L', '/PGM': 'H' },
  writable: true,
  marks: vppMarks(f),
  mostVolts: vppMost(f),
  dc: { ...USUAL_DC, stage: 'n-channel', low: { volts: 0.45, amps: 2.1e-3 }, working: 75e-3, resting: 35e-3, source: 'from memory' },
  figures: uvFigures(f),
  start: (bench, places, contents) =>
    startUv(bench, places, f, { writeEnable: places.enable('/PGM'), asks: { '/CE': 'L', '/OE': 'H', '/PGM': 'L' }, shows: true }, contents),
});

export const uvEprom8k = memoryPart((p) => sheet(p.vpp === '12.5 V' ? LATER_UV : EARLIER_UV));
