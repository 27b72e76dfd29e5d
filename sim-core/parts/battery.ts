/** Battery: a voltage behind the resistance of its cells; as it comes, three alkaline cells in a row. */
import { supplyPart } from './supply/supply-part.ts';

export const battery = supplyPart(
  { id: 'battery', title: 'Battery', synonyms: ['cells', 'AA cells', '4.5V', '9V block', 'battery pack', 'batteries'] },
  {
    volts: 4.5,
    ohms: 0.45,
    amps: 5,
    tolerance: 10,
    source: 'from memory: 1.6 V a fresh alkaline cell, 1.35 V a half used one',
    figures: [
      { name: 'voltage of a cell', value: 1.5, unit: 'V', source: 'from memory' },
      { name: 'resistance of a fresh cell', value: 0.15, unit: 'Ω', source: 'from memory; a block of 9 V has 1 to 2 Ω' },
      { name: 'current into a short circuit', value: 5, unit: 'A', source: 'from memory' },
    ],
  },
);
