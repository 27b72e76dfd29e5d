/** What the 28-pin EEPROMs with pages share: levels, times, and how they are written. */
import type { Figure, PartKind } from '../part.ts';
import { bytesBeyond, type EepromTraits, startEeprom } from './eeprom.ts';
import { pageVectors } from './page-vectors.ts';
import { ALIVE } from './reading.ts';
import { memoryPart, USUAL_DC } from './sheet.ts';
import { type EepromTiming, writeTimeFigures } from './timing.ts';
import { writtenBefore } from './wearing.ts';

const TIMES: Omit<EepromTiming, 'source'> = {
  access: 150e-9,
  chipEnable: 150e-9,
  outputEnable: 70e-9,
  float: 50e-9,
  least: {
    'address-setup': 0,
    'address-hold': 50e-9,
    'data-setup': 50e-9,
    'data-hold': 0,
    'output-enable-setup': 0,
    'output-enable-hold': 0,
  },
  pulseLeast: 100e-9,
  glitch: 15e-9,
  cycle: 10e-3,
  writeInhibit: 3.8,
  powerUp: 5e-3,
};

/** 64 bytes with the same upper address bits, each within 150 µs of the one before: SOURCES.md S4, S5. */
const PAGE = { bytes: 64, load: 150e-6 } as const;

const endurance: Figure = { name: 'writes of one cell, at least', value: 10_000, unit: '', source: 'SOURCES.md S5' };

/** /OE and A9 take up to 13.5 V; 12.0 V ± 0.5 V on them reaches what is not reached otherwise: SOURCES.md S2, S4. */
const FAR_ABOVE = 11.5;
const MOST_HIGH: Figure = { name: '/OE and A9, absolute most', value: 13.5, unit: 'V', source: 'SOURCES.md S4' };
const ERASE = { mark: 0, pulse: 10e-3 } as const;
const IDENTIFICATION = { mark: 1, bytes: 64 } as const;

/** What one of them has of its own. */
interface PageSheet {
  readonly id: string;
  readonly title: string;
  readonly pins: string;
  /** the texts that its read, write and level figures come from */
  readonly read: string;
  readonly write: string;
  readonly levels: string;
  /** the two addresses of its protection sequences, and where 64 more bytes appear with 12 V on A9 */
  readonly protection: { readonly first: number; readonly second: number };
  readonly identification: number;
  /** the output that is low while bytes come in and are stored */
  readonly busy?: string;
}

export function pageEeprom({ id, title, pins, read, write, levels, protection, identification, busy }: PageSheet): PartKind {
  const timing: EepromTiming = { ...TIMES, source: write };
  const traits: EepromTraits = {
    timing,
    endurance,
    page: PAGE,
    toggles: true,
    protection,
    ...(busy ? { busyOutput: 8 } : {}),
    chipErase: ERASE,
    identification: { ...IDENTIFICATION, at: identification },
  };
  return memoryPart({
    id,
    title,
    pins,
    params: writtenBefore,
    toRead: { '/CE': 'L', '/OE': 'L', '/WE': 'H' },
    writable: true,
    beyond: bytesBeyond(traits),
    ...(busy ? { moreOutputs: [busy] } : {}),
    marks: [
      { pin: '/OE', volts: FAR_ABOVE },
      { pin: 'A9', volts: FAR_ABOVE },
    ],
    mostVolts: { '/OE': MOST_HIGH, A9: MOST_HIGH },
    supplyMarks: [ALIVE, timing.writeInhibit],
    dc: { ...USUAL_DC, working: 40e-3, resting: 2e-3, source: levels },
    endurance,
    figures: figuresOf(timing, read, write),
    vectors: pageVectors(timing, protection, busy),
    start: (bench, { address, data, at }, contents, p) =>
      startEeprom(
        bench,
        { address, data, chipEnable: at('/CE'), outputEnable: at('/OE'), writeEnable: at('/WE') },
        traits,
        contents,
        Number(p.written),
      ),
  });
}

const figuresOf = (t: EepromTiming, read: string, write: string): Figure[] => [
  { name: 'access time', value: t.access, unit: 's', source: read },
  { name: 'output enable time', value: t.outputEnable, unit: 's', source: read },
  { name: 'output float time', value: t.float, unit: 's', source: read },
  { name: 'write pulse, least', value: t.pulseLeast, unit: 's', source: write },
  ...writeTimeFigures(t),
  { name: 'pulses not noticed, shorter than', value: t.glitch, unit: 's', source: 'SOURCES.md S4, S5, typical' },
  { name: 'byte load time, most', value: PAGE.load, unit: 's', source: write },
  { name: 'page', value: PAGE.bytes, unit: 'B', source: write },
  { name: 'write cycle, most', value: t.cycle, unit: 's', source: write },
  { name: 'supply below which it does not write', value: t.writeInhibit, unit: 'V', source: 'SOURCES.md S4, S5, typical' },
  { name: 'lock-out after the supply has come up', value: t.powerUp, unit: 's', source: 'SOURCES.md S4, S5, typical' },
  { name: '/OE and A9, far above the high level', value: 12, unit: 'V', source: 'SOURCES.md S4' },
  MOST_HIGH,
  { name: '/WE low for clearing the whole chip, least', value: ERASE.pulse, unit: 's', source: 'SOURCES.md S4' },
];
