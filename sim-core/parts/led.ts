/** Light-emitting diode, 5 mm, in five colours. */
import { twoLeg } from '../board/footprints.ts';
import { junctionFor, type LedColour } from './figures/junctions.ts';
import { definePart } from './part.ts';

/** Largest steady current by colour [mA]: SOURCES.md S40 (red, amber, green) and S13 (blue, white). */
const MOST_MA: Readonly<Record<LedColour, number>> = { red: 30, amber: 30, green: 25, blue: 25, white: 25 };

export const led = definePart({
  id: 'led',
  title: 'LED, 5 mm',
  synonyms: ['lamp', 'bulb', 'light', 'indicator', 'light-emitting diode'],
  group: 'led',
  letters: 'LED',
  params: [{ name: 'colour', type: 'choice', choices: ['red', 'amber', 'green', 'blue', 'white'], fallback: 'red' }],
  footprint: () => twoLeg(1),
  pins: () => [
    { pin: '1', name: 'anode', role: 'passive' },
    { pin: '2', name: 'cathode', role: 'passive' },
  ],
  figures: Object.entries(MOST_MA).map(([colour, mA]) => mostCurrent(colour as LedColour, mA)),
  value: (p) => String(p.colour),
  connect(w, p) {
    const colour = p.colour as LedColour;
    w.junction('1', '2', junctionFor(colour), {
      name: '',
      colour,
      mostCurrent: mostCurrent(colour, MOST_MA[colour]),
      mostReverse: { name: 'reverse voltage', value: 5, unit: 'V', source: 'SOURCES.md S40, usual figure for a discrete LED' },
    });
  },
});

function mostCurrent(colour: LedColour, mA: number) {
  return {
    name: `steady current, ${colour}`,
    value: mA / 1000,
    unit: 'A',
    source: `SOURCES.md ${colour === 'blue' || colour === 'white' ? 'S13' : 'S40'}`,
  };
}
