/** The coloured rings on a resistor, IEC 60062: from ohms to rings and back. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';

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
 * Rings from the one to read first. Two figures and a multiplier where two figures say it all, else three (rounded to them).
 * A tolerance of 20 % has no ring, and neither has one that the standard gives no colour.
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

/** Three rings: no tolerance ring, so 20 %. Four: two figures. Five: three figures. */
export function readColourBands(bands: readonly string[]): Outcome<{ readonly ohms: number; readonly tolerancePercent: number }> {
  if (bands.length < 3 || bands.length > 5)
    return failed('value/colour-bands', '', `A resistor has three to five colour bands for value and tolerance; here are ${bands.length}.`);
  const count = bands.length === 5 ? 3 : 2;
  let figures = 0;
  for (const [i, colour] of bands.slice(0, count).entries()) {
    const digit = (DIGITS as readonly string[]).indexOf(colour);
    if (digit < 0)
      return failed(
        'value/colour-bands',
        `ring ${i + 1}`,
        `Ring ${i + 1} is ${colour}, which stands for no figure; perhaps the rings are read from the wrong end.`,
      );
    figures = figures * 10 + digit;
  }
  const multiplier = bands[count] ?? '';
  const small = (SMALL as readonly string[]).indexOf(multiplier);
  const power = small >= 0 ? -1 - small : (DIGITS as readonly string[]).indexOf(multiplier);
  if (power < 0 && small < 0)
    return failed('value/colour-bands', `ring ${count + 1}`, `Ring ${count + 1} is ${multiplier}, which is no multiplier.`);
  const last = bands[count + 1];
  const tolerance = last === undefined ? 20 : TOLERANCES.find(([colour]) => colour === last)?.[1];
  if (tolerance === undefined)
    return failed('value/colour-bands', `ring ${count + 2}`, `Ring ${count + 2} is ${last}, which stands for no tolerance.`);
  return done({ ohms: Number(`${figures}e${power}`), tolerancePercent: tolerance });
}
