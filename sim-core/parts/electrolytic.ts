/** Electrolytic capacitor: large, with a plus and a minus leg that must not be exchanged, and a voltage that it is made for. */
import { twoLeg } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { definePart } from './part.ts';

/** What a good one leaks after minutes [S], as a resistor that takes 0.001·C·U at the voltage U; at most ten times that, or 3 µA. From memory. */
const LEAK_PER_FARAD = 0.001;
const MOST_LEAK_PER_FARAD = 0.01;

/** Between its legs once its oxide has broken down [Ω]: it conducts; from memory, how well is our choice. */
const BROKEN = 5;

export const electrolytic = definePart({
  id: 'electrolytic',
  title: 'Electrolytic capacitor',
  synonyms: ['electrolytic', 'polarised capacitor', 'reservoir capacitor', 'bulk capacitor', 'smoothing capacitor'],
  group: 'passive',
  letters: 'C',
  params: [
    { name: 'farads', type: 'number', unit: 'F', fallback: 10e-6, least: 0.1e-6, most: 10e-3 },
    { name: 'volts', type: 'number', unit: 'V', fallback: 25, least: 4, most: 100 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 20, least: 0, most: 80 },
  ],
  footprint: () => twoLeg(1),
  pins: () => [
    { pin: '1', name: '+', role: 'passive' },
    { pin: '2', name: '−', role: 'passive' },
  ],
  figures: [
    { name: 'reverse voltage', value: 1, unit: 'V', source: 'from memory' },
    { name: 'leakage, typical', value: LEAK_PER_FARAD, unit: 'S per F', source: 'from memory: 0.001·C·U' },
    { name: 'leakage of a poor one', value: MOST_LEAK_PER_FARAD, unit: 'S per F', source: 'from memory: 0.01·C·U' },
  ],
  spread: { of: 'farads', source: 'common practice, no source: 20 %, letter M' },
  leakage: 'from memory: 0.001·C·U of a good one, 0.01·C·U at most',
  polar: {
    plus: '1',
    minus: '2',
    mostReverse: { name: 'reverse voltage', value: 1, unit: 'V', source: 'from memory' },
    most: (p) => ({ name: 'voltage', value: Number(p.volts), unit: 'V', source: 'printed on it' }),
  },
  wireDamaged(w) {
    w.conductor('1', '2', 1 / BROKEN);
  },
  value: (p) => siFormat(Number(p.farads), 'F'),
  connect(w, p) {
    w.capacitor('1', '2', Number(p.farads));
    w.conductor('1', '2', LEAK_PER_FARAD * Number(p.farads), MOST_LEAK_PER_FARAD * Number(p.farads));
  },
});
