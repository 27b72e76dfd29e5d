/** Ceramic capacitor. */
import { twoLeg } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { definePart, plainPins } from './part.ts';

export const capacitor = definePart({
  id: 'capacitor',
  title: 'Ceramic capacitor',
  synonyms: ['bypass capacitor', 'decoupling capacitor', 'disc capacitor'],
  group: 'passive',
  letters: 'C',
  params: [
    { name: 'farads', type: 'number', unit: 'F', fallback: 100e-9, least: 1e-12, most: 10e-6 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 10, least: 0, most: 80 },
  ],
  footprint: () => twoLeg(2),
  pins: () => plainPins(2),
  figures: [],
  spread: { of: 'farads', source: 'common practice, no source: 10 %, letter K' },
  decouples: true,
  value: (p) => siFormat(Number(p.farads), 'F'),
  connect(w, p) {
    w.capacitor('1', '2', Number(p.farads));
  },
});
