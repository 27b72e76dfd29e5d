/** A Gray-coded disc under a wind vane, eight compass lamps. */
import { counted, type DemoTable } from './table.ts';

/** Sixteen sectors: on an even one its lamp is lit, between two lamps both are. */
const lamp = (name: string, i: number): string => {
  const sectors = [2 * i - 1, 2 * i, 2 * i + 1].map((s) => `sector = ${(s + 16) % 16}`);
  return `${name} = ${sectors.join(' OR ')}`;
};
const LAMPS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

export const windVane: DemoTable = {
  id: 'wind-vane',
  title: 'Wind vane',
  story:
    'A disc with four Gray-coded tracks turns under the vane, so that only one sensor changes from sector to sector. Lamps show the wind; between two directions both are lit.',
  inputs: counted('G', 4),
  outputs: LAMPS,
  arrangement: 'ring',
  rules: ['sector = fromgray(G3..G0)', ...LAMPS.map(lamp)].join('\n'),
};
