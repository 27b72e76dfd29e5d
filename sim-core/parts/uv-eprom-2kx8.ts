/** UV EPROM 2K × 8 in the 24-pin byte-wide package: programmed at 25 V by a pulse that is high, erased by light. */
import { memoryPart, USUAL_DC } from './memory/data-sheet.ts';
import { startUv, type UvFigures, uvFigures, vppMarks, vppMost } from './memory/uv-eprom.ts';

export const uvEprom2kFigures: UvFigures = {
  access: 450e-9,
  chipEnable: 450e-9,
  outputEnable: 120e-9,
  float: 100e-9,
  vpp: { read: 4.4, program: 24, set: 25, most: 26.5 },
  pulse: { least: 45e-3, most: 55e-3, whole: 45e-3 },
  setup: 2e-6,
  source: 'from memory',
};

export const uvEprom2k = memoryPart({
  id: 'uv-eprom-2kx8',
  title: 'UV EPROM 2K × 8, 24-pin',
  synonyms: ['EPROM', 'UV memory'],
  // SOURCES.md S1
  pins: 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE VPP A9 A8 VCC',
  toRead: { '/CE': 'L', '/OE': 'L' },
  writable: true,
  marks: vppMarks(uvEprom2kFigures),
  mostVolts: vppMost(uvEprom2kFigures),
  dc: { ...USUAL_DC, stage: 'n-channel', low: { volts: 0.45, amps: 2.1e-3 }, working: 100e-3, resting: 25e-3, source: 'from memory' },
  figures: uvFigures(uvEprom2kFigures),
  // from memory: with VPP at 25 V and /OE high, /CE is pulsed high; without VPP the same levels are rest
  start: (bench, places, contents) =>
    startUv(bench, places, uvEprom2kFigures, { asks: { '/CE': 'H', '/OE': 'H' }, shows: false }, contents),
});
