/** Inductor: a coil on a small core, its inductance behind the resistance of its wire. */
import { twoLeg } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { winding } from './figures/windings.ts';
import { definePart, plainPins } from './part.ts';

const mostPower = { name: 'power', value: 0.5, unit: 'W', source: 'from memory: what a body of this size gives off in free air' } as const;

export const inductor = definePart({
  id: 'inductor',
  title: 'Inductor',
  synonyms: ['coil', 'choke', 'inductance'],
  group: 'passive',
  letters: 'L',
  params: [
    { name: 'henries', type: 'number', unit: 'H', fallback: 10e-3, least: 1e-6, most: 10 },
    { name: 'ohms', type: 'number', unit: 'Ω', fallback: 20, least: 0.01, most: 10e3, called: 'resistance of its wire' },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 10, least: 0, most: 50 },
  ],
  footprint: () => twoLeg(2),
  pins: () => plainPins(2),
  figures: [mostPower],
  mostPower,
  spread: { of: 'henries', source: 'common practice, no source: 10 %, letter K' },
  value: (p) => siFormat(Number(p.henries), 'H'),
  connect(w, p) {
    w.coil('1', '2', winding(Number(p.ohms), Number(p.henries)));
  },
});
