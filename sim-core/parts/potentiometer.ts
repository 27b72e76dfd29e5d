/** Potentiometer: a resistor with a wiper, three legs in line, the wiper in the middle. */
import { inLine } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { definePart } from './part.ts';

/** Between the wiper and the end it stands at [Ω]; from memory. */
const END = 5;

const mostPower = { name: 'power', value: 0.2, unit: 'W', source: 'from memory: a carbon track of 9 mm, all of it in use' } as const;

export const potentiometer = definePart({
  id: 'potentiometer',
  title: 'Potentiometer',
  synonyms: ['pot', 'trimmer', 'trimpot', 'preset', 'variable resistor'],
  group: 'passive',
  letters: 'RV',
  params: [
    { name: 'ohms', type: 'number', unit: 'Ω', fallback: 10e3, least: 100, most: 1e6 },
    { name: 'wiper', type: 'number', unit: '', fallback: 0.5, least: 0, most: 1 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 20, least: 0, most: 50 },
  ],
  footprint: () => inLine(3),
  pins: () => [
    { pin: '1', name: '1', role: 'passive' },
    { pin: '2', name: 'wiper', role: 'passive' },
    { pin: '3', name: '3', role: 'passive' },
  ],
  figures: [{ name: 'resistance left at an end', value: END, unit: 'Ω', source: 'from memory' }, mostPower],
  mostPower,
  spread: { of: 'ohms', source: 'from memory: 20 % for a carbon track, 10 % for cermet' },
  value: (p) => siFormat(Number(p.ohms), 'Ω'),
  connect(w, p) {
    const whole = Number(p.ohms);
    const below = whole * Number(p.wiper);
    w.conductor('1', '2', 1 / Math.max(below, END));
    w.conductor('2', '3', 1 / Math.max(whole - below, END));
  },
});
