/** The colour bands of a resistor, IEC 60062. */

/** A colour's place in the list is its digit, and its power of ten as a multiplier. */
const DIGITS = ['black', 'brown', 'red', 'orange', 'yellow', 'green', 'blue', 'violet', 'grey', 'white'] as const;
/** Powers −1, −2, −3. */
const SMALL = ['gold', 'silver', 'pink'] as const;
const TOLERANCES: ReadonlyArray<readonly [colour: string, percent: number]> = [
  ['brown', 1],
  ['red', 2],
  ['orange', 0.05],
  ['yellow', 0.02],
  ['green', 0.5],
  ['blue', 0.25],
  ['violet', 0.1],
  ['grey', 0.01],
  ['gold', 5],
  ['silver', 10],
];

const digitColour = (d: number): string => DIGITS[d] ?? 'black';
const multiplierColour = (power: number): string => (power < 0 ? SMALL[-power - 1] : DIGITS[power]) ?? 'black';

/**
 * Bands from the one to read first. Two figures and a multiplier where two figures say it all, else three (rounded to them).
 * A tolerance of 20 % has no band, and neither has one that the standard gives no colour.
 */
export function colourBands(ohms: number, tolerancePercent: number): readonly string[] {
  const [mantissa = '', exponent = '0'] = ohms.toExponential(2).split('e');
  const digits = mantissa.replace('.', '');
  const count = digits.endsWith('0') ? 2 : 3;
  const tolerance = TOLERANCES.find(([, percent]) => percent === tolerancePercent)?.[0];
  return [
    ...[...digits.slice(0, count)].map((d) => digitColour(Number(d))),
    multiplierColour(Number(exponent) - (count - 1)),
    ...(tolerance === undefined ? [] : [tolerance]),
  ];
}
