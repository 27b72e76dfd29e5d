/** Crystal clock in a can with four legs, where a 14-pin package has its corners: a square wave of a fixed frequency. */
import { can } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { FAMILIES } from './figures/families.ts';
import { ofFamily } from './logic/logic-part.ts';
import { startOscillator } from './logic/oscillator.ts';
import { constantCurrent, definePart, type Pin } from './part.ts';

/** Pins 1, 7, 8 and 14 of the outline; from memory. */
const PINS: readonly Pin[] = [
  { pin: '1', name: 'NC', role: 'none' },
  { pin: '7', name: 'GND', role: 'ground' },
  { pin: '8', name: 'OUT', role: 'output' },
  { pin: '14', name: 'VCC', role: 'supply' },
];
/** At 5 V [A], and the supply at which it begins to swing [V]; from memory. */
const SUPPLY_CURRENT = 15e-3;
const MOST_SUPPLY_CURRENT = 30e-3;
const ALIVE = 3;

export const crystalClock = definePart({
  id: 'crystal-oscillator',
  title: 'Crystal oscillator',
  synonyms: ['clock', 'oscillator', 'crystal', 'xtal', 'XO', 'quartz'],
  group: 'logic',
  letters: 'Y',
  params: [
    { name: 'hertz', type: 'number', unit: 'Hz', fallback: 1e6, least: 1e3, most: 20e6 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 0.01, least: 0, most: 1 },
  ],
  footprint: () => can,
  pins: () => PINS,
  figures: [
    { name: 'supply current, typical', value: SUPPLY_CURRENT, unit: 'A', source: 'from memory' },
    { name: 'supply current, most', value: MOST_SUPPLY_CURRENT, unit: 'A', source: 'from memory' },
    { name: 'duty cycle', value: 0.5, unit: '', source: 'from memory: 40 to 60 % guaranteed' },
  ],
  spread: { of: 'hertz', source: 'from memory: 100 parts in a million, all causes together' },
  value: (p) => siFormat(Number(p.hertz), 'Hz'),
  connect(w, p) {
    w.chip({
      ...ofFamily(FAMILIES.HCT, 'standard'),
      inputs: [],
      outputs: ['OUT'],
      supplyCurrent: constantCurrent(SUPPLY_CURRENT, MOST_SUPPLY_CURRENT),
      supplyMarks: [ALIVE],
      start: (bench) => startOscillator(bench, { hertz: Number(p.hertz), duty: 0.5, alive: ALIVE }),
    });
  },
});
