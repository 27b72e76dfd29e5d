/**
 * Colour bands against IEC 60062: figures black 0 … white 9, multiplier 10^figure, gold 0.1, silver 0.01, pink 0.001;
 * tolerance brown 1 %, red 2, orange 0.05, yellow 0.02, green 0.5, blue 0.25, violet 0.1, grey 0.01, gold 5, silver 10, none 20.
 * The code is from memory (no copy of the standard was at hand); each line below was worked out by hand from it.
 */
import { describe, expect, test } from 'vitest';
import { colourBands } from '../../sim-core/units/colour-bands.ts';

const VALUES: ReadonlyArray<readonly [ohms: number, tolerance: number, bands: string]> = [
  [10, 5, 'brown black black gold'],
  [22, 5, 'red red black gold'],
  [47, 5, 'yellow violet black gold'],
  [68, 10, 'blue grey black silver'],
  [100, 5, 'brown black brown gold'],
  [120, 5, 'brown red brown gold'],
  [150, 5, 'brown green brown gold'],
  [220, 5, 'red red brown gold'],
  [330, 5, 'orange orange brown gold'],
  [390, 5, 'orange white brown gold'],
  [470, 5, 'yellow violet brown gold'],
  [560, 5, 'green blue brown gold'],
  [680, 5, 'blue grey brown gold'],
  [910, 2, 'white brown brown red'],
  [1000, 5, 'brown black red gold'],
  [1800, 20, 'brown grey red'],
  [4700, 5, 'yellow violet red gold'],
  [10_000, 5, 'brown black orange gold'],
  [75_000, 5, 'violet green orange gold'],
  [100_000, 5, 'brown black yellow gold'],
  [820_000, 10, 'grey red yellow silver'],
  [1_000_000, 5, 'brown black green gold'],
  [2_200_000, 5, 'red red green gold'],
  [10_000_000, 5, 'brown black blue gold'],
  [4.7, 5, 'yellow violet gold gold'],
  [0.47, 5, 'yellow violet silver gold'],
  [0.022, 5, 'red red pink gold'],
  [499, 1, 'yellow white white black brown'],
  [4990, 1, 'yellow white white brown brown'],
  [17_800, 0.5, 'brown violet grey red green'],
  [2.21, 0.25, 'red red brown silver blue'],
  [90_900, 0.1, 'white black white red violet'],
];

describe('thirty values and two', () => {
  test.each(VALUES)('%d ohm, %d %%: %s', (ohms, tolerance, bands) => {
    expect(colourBands(ohms, tolerance).join(' ')).toBe(bands);
  });
});
