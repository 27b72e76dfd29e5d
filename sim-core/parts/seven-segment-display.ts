/** Seven-segment digit, 0.56 inch, ten pins: common anode or common cathode. */
import { dip } from '../board/footprints.ts';
import { junctionFor, type LedColour } from './figures/junctions.ts';
import { definePart, type PartKind, type Pin } from './part.ts';

/** Pins 1 to 10; SOURCES.md S13, order confirmed by S46; the same for both polarities. */
const PINS = ['e', 'd', 'COM', 'c', 'DP', 'b', 'a', 'COM', 'f', 'g'] as const;
const COMMON = ['3', '8'] as const;

/** Steady current of one segment [mA], and reverse voltage [V]: SOURCES.md S13. */
const MOST_MA: Readonly<Record<'red' | 'green' | 'blue', number>> = { red: 30, green: 25, blue: 30 };

const digit = (polarity: 'anode' | 'cathode'): PartKind =>
  definePart({
    id: `seven-segment-common-${polarity}`,
    title: `7-segment display, common ${polarity}`,
    synonyms: ['7-segment', 'seven-segment', 'digit', 'numeric display'],
    group: 'led',
    letters: 'DS',
    params: [{ name: 'colour', type: 'choice', choices: ['red', 'green', 'blue'], fallback: 'red' }],
    footprint: () => dip(10, 0.6),
    pins: () => PINS.map((name, i): Pin => ({ pin: String(i + 1), name, role: 'passive' })),
    figures: Object.entries(MOST_MA).map(([colour, mA]) => ({
      name: `steady current, ${colour}`,
      value: mA / 1000,
      unit: 'A',
      source: 'SOURCES.md S13',
    })),
    value: (p) => String(p.colour),
    connect(w, p) {
      const colour = p.colour as LedColour & keyof typeof MOST_MA;
      w.conductor(COMMON[0], COMMON[1], 10);
      PINS.forEach((name, i) => {
        if (name === 'COM') return;
        const [anode, cathode] = polarity === 'anode' ? [COMMON[0], String(i + 1)] : [String(i + 1), COMMON[0]];
        w.junction(anode, cathode, junctionFor(colour), {
          name,
          colour,
          mostCurrent: { name: 'steady current', value: MOST_MA[colour] / 1000, unit: 'A', source: 'SOURCES.md S13' },
          mostReverse: { name: 'reverse voltage', value: 3, unit: 'V', source: 'SOURCES.md S13' },
        });
      });
    },
  });

export const digitCommonAnode = digit('anode');
export const digitCommonCathode = digit('cathode');
