/** A Gray-coded disc under a wind vane, eight compass LEDs. */
import { counted, type DemoTable } from './table.ts';

/** Sixteen sectors: on an even one its LED is lit, between two LEDs both are. */
const led = (name: string, i: number): string => {
  const sectors = [2 * i - 1, 2 * i, 2 * i + 1].map((s) => `sector = ${(s + 16) % 16}`);
  return `${name} = ${sectors.join(' OR ')}`;
};
const LEDS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

export const windVane: DemoTable = {
  id: 'wind-vane',
  title: 'Wind vane',
  description:
    'A disc with four Gray-coded tracks turns under the vane, so that only one sensor changes from sector to sector. LEDs show the wind; between two directions both are lit.',
  inputs: counted('G', 4),
  outputs: LEDS,
  arrangement: 'ring',
  rules: ['sector = fromgray(G3..G0)', ...LEDS.map(led)].join('\n'),
};
