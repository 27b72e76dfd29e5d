/** Small silicon diode. */
import { twoLeg } from '../board/footprints.ts';
import { smallDiode } from './figures/junctions.ts';
import { definePart } from './part.ts';

const mostCurrent = { name: 'steady current', value: 0.2, unit: 'A', source: 'from memory' } as const;

export const diode = definePart({
  id: 'diode',
  title: 'Silicon diode',
  synonyms: ['signal diode', 'switching diode', 'flyback diode', 'catch diode'],
  group: 'passive',
  letters: 'D',
  params: [],
  footprint: () => twoLeg(4),
  pins: () => [
    { pin: '1', name: 'anode', role: 'passive' },
    { pin: '2', name: 'cathode', role: 'passive' },
  ],
  figures: [
    { name: 'forward voltage at 10 mA', value: 0.72, unit: 'V', source: 'from memory' },
    mostCurrent,
    { name: 'reverse voltage', value: 75, unit: 'V', source: 'from memory' },
  ],
  mostCurrent,
  forward: { typical: 0.72, least: 0.62, most: 1, source: 'from memory: 1 V at most; the lowest a guess' },
  connect(w) {
    w.junction('1', '2', smallDiode);
  },
});
