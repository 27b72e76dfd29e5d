/** Bar of ten LEDs in a 20-pin package: anodes along one side, each LED's cathode facing its anode. */
import { dip } from '../board/footprints.ts';
import { junctionFor, type LedColour } from './figures/junctions.ts';
import { definePart, type Figure, type Pin } from './part.ts';

const LEDS = 10;
/** Largest steady current by colour [mA], as of single LEDs: SOURCES.md S40. */
const MOST_MA: Readonly<Record<'red' | 'amber' | 'green', number>> = { red: 30, amber: 30, green: 25 };
const mostCurrent = (colour: keyof typeof MOST_MA): Figure => ({
  name: `steady current, ${colour}`,
  value: MOST_MA[colour] / 1000,
  unit: 'A',
  source: 'SOURCES.md S40',
});

export const ledBar = definePart({
  id: 'led-bar-graph',
  title: 'LED bar graph, 10 segments',
  synonyms: ['bar graph', 'bargraph', 'LED bar', 'lamp bar'],
  group: 'led',
  letters: 'DS',
  params: [{ name: 'colour', type: 'choice', choices: Object.keys(MOST_MA), fallback: 'red' }],
  footprint: () => dip(2 * LEDS),
  // LED n between pins n and 21 − n: from memory
  pins: () =>
    Array.from(
      { length: 2 * LEDS },
      (_, i): Pin => ({ pin: String(i + 1), name: i < LEDS ? `A${i + 1}` : `K${2 * LEDS - i}`, role: 'passive' }),
    ),
  figures: [
    ...(['red', 'amber', 'green'] as const).map(mostCurrent),
    { name: 'reverse voltage', value: 5, unit: 'V', source: 'SOURCES.md S40' },
  ],
  value: (p) => String(p.colour),
  connect(w, p) {
    const colour = p.colour as LedColour & keyof typeof MOST_MA;
    for (let n = 1; n <= LEDS; n++)
      w.junction(String(n), String(2 * LEDS + 1 - n), junctionFor(colour), {
        name: String(n),
        colour,
        mostCurrent: mostCurrent(colour),
        mostReverse: { name: 'reverse voltage', value: 5, unit: 'V', source: 'SOURCES.md S40' },
      });
  },
});
