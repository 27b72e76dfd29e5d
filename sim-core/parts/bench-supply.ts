/** Bench supply: a voltage behind a small resistance, with a current limit and a switch. */
import { supplyPart } from './supply/supply-part.ts';

export const benchSupply = supplyPart(
  {
    id: 'bench-supply',
    title: 'Bench supply',
    synonyms: ['power supply', 'PSU', 'VCC', 'GND', 'ground', '5V'],
  },
  {
    volts: 5,
    ohms: 0.1,
    amps: 0.5,
    tolerance: 10,
    source: 'common practice, no source: 5 V ± 10 %, what the memories are specified for',
    figures: [
      { name: 'usual voltage', value: 5, unit: 'V', source: 'common practice, no source' },
      { name: 'internal resistance', value: 0.1, unit: 'Ω', source: 'from memory' },
      { name: 'current limit', value: 0.5, unit: 'A', source: 'from memory: fuse or limit the 5 V, e.g. 500 mA' },
    ],
  },
);
