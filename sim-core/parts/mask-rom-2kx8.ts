/** Mask ROM 2K × 8 in the 24-pin byte-wide package: its contents are made with it and never change; so is the level of one of its selects. */

import { type MemoryDataSheet, memoryPart } from './memory/data-sheet.ts';
import { startReadOnly } from './memory/prom-behaviour.ts';
import type { ReadTiming } from './memory/read-path.ts';

export const maskRomTiming: ReadTiming = { access: 450e-9, chipEnable: 200e-9, outputEnable: 200e-9, float: 150e-9, source: 'from memory' };

/** SOURCES.md S1: pins 20 and 21 are active low, pin 18 is as the customer had it made. */
const sheet = (select: '/CS2' | 'CS2'): MemoryDataSheet => {
  const active = select === 'CS2' ? 'H' : 'L';
  return {
    id: 'mask-rom-2kx8',
    title: 'Mask ROM 2K × 8, 24-pin',
    synonyms: ['ROM', 'MROM'],
    params: [{ name: 'select', type: 'choice', choices: ['high', 'low'], fallback: 'high' }],
    pins: `A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 ${select} A10 /CS1 /CS3 A9 A8 VCC`,
    toRead: { '/CS1': 'L', [select]: active, '/CS3': 'L' },
    writable: false,
    dc: {
      vil: 0.8,
      vih: 2.0,
      leakage: 10e-6,
      releasedLeakage: 10e-6,
      capacitance: 7e-12,
      dataCapacitance: 10e-12,
      stage: 'n-channel',
      high: 0.2e-3,
      low: { volts: 0.4, amps: 2.1e-3 },
      working: 70e-3,
      resting: 70e-3,
      source: 'from memory',
    },
    figures: [
      { name: 'access time', value: maskRomTiming.access, unit: 's', source: maskRomTiming.source },
      { name: 'select to output', value: maskRomTiming.chipEnable, unit: 's', source: maskRomTiming.source },
      { name: 'output float time', value: maskRomTiming.float, unit: 's', source: maskRomTiming.source },
    ],
    start: (bench, { address, enable }, contents) =>
      startReadOnly(bench, { address, select: [enable('/CS1'), enable(select), enable('/CS3')] }, maskRomTiming, contents),
  };
};

export const maskRom2k = memoryPart((p) => sheet(p.select === 'low' ? '/CS2' : 'CS2'));
