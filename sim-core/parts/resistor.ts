/** Resistor, quarter-watt axial. */
import { twoLeg } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { definePart, plainPins } from './part.ts';

const power = { name: 'power', value: 0.25, unit: 'W', source: 'from memory: quarter-watt film, full power to 70 °C' } as const;

export const resistor = definePart({
  id: 'resistor',
  title: 'Resistor',
  synonyms: ['pull-up', 'pullup', 'pull-down', 'pulldown', 'series resistor', 'current limiting resistor', 'dropper', 'bleeder'],
  group: 'passive',
  params: [
    { name: 'ohms', type: 'number', unit: 'Ω', fallback: 330, least: 0.1, most: 100e6 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 5, least: 0, most: 50 },
  ],
  footprint: () => twoLeg(4),
  pins: () => plainPins(2),
  figures: [power],
  spread: { of: 'ohms', source: 'SOURCES.md S49: 5 % belongs to the E24 series' },
  mostPower: power,
  value: (p) => siFormat(Number(p.ohms), 'Ω'),
  connect(w, p) {
    w.conductor('1', '2', 1 / Number(p.ohms));
  },
});
