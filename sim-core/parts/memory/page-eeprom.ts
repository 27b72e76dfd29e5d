/** What the EEPROMs with pages share: levels, times, and how they are written. */
import type { Figure, PartKind } from '../part.ts';
import { USUAL_DC } from './data-sheet.ts';
import type { EepromTraits } from './eeprom.ts';
import { A9_MARK, eepromPart, endurance, mostHigh, OE_MARK } from './eeprom-part.ts';
import { type EepromTiming, writeTimeFigures } from './timing.ts';

/** Times that one of them may have of its own are given in its sheet. */
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

/** A byte of a page comes within this of the one before [s]: SOURCES.md S4, S5. */
const LOAD = 150e-6;

const ERASE = { mark: OE_MARK, pulse: 10e-3 } as const;

/** What one of them has of its own. */
export interface PageSheet {
  readonly id: string;
  readonly title: string;
  readonly pins: string;
  /** the texts that its read, write and level figures come from */
  readonly read: string;
  readonly write: string;
  readonly levels: string;
  /** words behind the sources of figures that are those of its smaller kin */
  readonly kin?: string;
  /** read times of its own [s] */
  readonly times?: Partial<Pick<EepromTiming, 'access' | 'chipEnable' | 'outputEnable' | 'float'>>;
  /** bytes with the same upper address bits, stored together; as many more appear with 12 V on A9 */
  readonly page: number;
  /** the two addresses of its protection sequences, and where those bytes appear */
  readonly protection: { readonly first: number; readonly second: number };
  readonly identification: number;
  /** the output that is low while bytes come in and are stored */
  readonly busy?: string;
}

export const pageTimingOf = ({ times, write }: PageSheet): EepromTiming => ({ ...TIMES, ...times, source: write });

export function pageEeprom(sheet: PageSheet): PartKind {
  const { id, title, pins, levels, page, protection, identification, busy, kin = '' } = sheet;
  const timing = pageTimingOf(sheet);
  const most = mostHigh(`SOURCES.md S4${kin}`);
  const traits: EepromTraits = {
    timing,
    endurance: endurance(`SOURCES.md S5${kin}`),
    page: { bytes: page, load: LOAD },
    toggles: true,
    protection,
    ...(busy ? { busyOutput: 8 } : {}),
    chipErase: ERASE,
    identification: { mark: A9_MARK, bytes: page, at: identification },
  };
  return eepromPart(traits, most, {
    id,
    title,
    synonyms: ['E2PROM'],
    pins,
    ...(busy ? { moreOutputs: [busy] } : {}),
    dc: { ...USUAL_DC, working: 40e-3, typical: { working: 8e-3 }, resting: 2e-3, source: levels },
    figures: [...figuresOf(timing, sheet, kin), most],
  });
}

const figuresOf = (t: EepromTiming, { read, write, page }: PageSheet, kin: string): Figure[] => [
  { name: 'access time', value: t.access, unit: 's', source: read },
  { name: 'output enable time', value: t.outputEnable, unit: 's', source: read },
  { name: 'output float time', value: t.float, unit: 's', source: read },
  { name: 'write pulse, least', value: t.pulseLeast, unit: 's', source: write },
  ...writeTimeFigures(t),
  { name: 'pulses ignored, shorter than', value: t.glitch, unit: 's', source: `SOURCES.md S4, S5, typical${kin}` },
  { name: 'byte load time, most', value: LOAD, unit: 's', source: write },
  { name: 'page', value: page, unit: 'B', source: write },
  { name: 'write cycle, most', value: t.cycle, unit: 's', source: write },
  { name: 'supply below which writes are locked out', value: t.writeInhibit, unit: 'V', source: `SOURCES.md S4, S5, typical${kin}` },
  { name: 'write lock-out after power-up', value: t.powerUp, unit: 's', source: `SOURCES.md S4, S5, typical${kin}` },
  { name: '/OE and A9, far above the high level', value: 12, unit: 'V', source: `SOURCES.md S4${kin}` },
  { name: '/WE low for chip erase, least', value: ERASE.pulse, unit: 's', source: `SOURCES.md S4${kin}` },
];
