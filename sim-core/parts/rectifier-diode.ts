/** Rectifier diode for 1 A: what a motor's or a large coil's current goes through when it is switched off. */
import { twoLeg } from '../board/footprints.ts';
import { rectifierJunction } from './figures/junctions.ts';
import { definePart } from './part.ts';

const mostCurrent = { name: 'steady current', value: 1, unit: 'A', source: 'from memory' } as const;

export const rectifierDiode = definePart({
  id: 'rectifier-diode',
  title: 'Rectifier diode',
  synonyms: ['rectifier', 'power diode', 'flyback diode', 'freewheeling diode'],
  group: 'passive',
  letters: 'D',
  params: [],
  footprint: () => twoLeg(4),
  pins: () => [
    { pin: '1', name: 'anode', role: 'passive' },
    { pin: '2', name: 'cathode', role: 'passive' },
  ],
  figures: [
    { name: 'forward voltage at 1 A', value: 0.93, unit: 'V', source: 'from memory: 1.1 V at most' },
    mostCurrent,
    { name: 'reverse voltage', value: 50, unit: 'V', source: 'from memory: the lowest of its series' },
  ],
  mostCurrent,
  forward: { typical: 0.67, least: 0.58, most: 0.8, source: 'from memory; lowest and highest a guess' },
  connect(w) {
    w.junction('1', '2', rectifierJunction);
  },
});
