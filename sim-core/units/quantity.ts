/** Quantities with SI prefixes, in and out: `4k7`, `680`, `1n`, `10 µA`. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { shortened } from '../../shared/quoted.ts';

const PREFIXES: ReadonlyArray<readonly [letter: string, power: number]> = [
  ['T', 12],
  ['G', 9],
  ['M', 6],
  ['k', 3],
  ['', 0],
  ['m', -3],
  ['µ', -6],
  ['n', -9],
  ['p', -12],
  ['f', -15],
];

/** What is smaller is a rounding error of whoever computed it. */
const NOTHING = 1e-18;

/** value in the unit → "4.7 kΩ": rounded to `figures` significant figures, no trailing zeros. */
export function siFormat(value: number, unit: string, figures = 3): string {
  if (!Number.isFinite(value)) return `∞ ${unit}`;
  if (Math.abs(value) < NOTHING) return `0 ${unit}`;
  const rounded = Number(value.toPrecision(figures));
  const power = Math.floor(Math.log10(Math.abs(rounded)) + 1e-12);
  const third = Math.max(-15, Math.min(12, 3 * Math.floor(power / 3)));
  const letter = PREFIXES.find(([, p]) => p === third)?.[0] ?? '';
  const scaled = Number((rounded / 10 ** third).toPrecision(figures));
  return `${String(scaled).replace('-', '−')} ${letter}${unit}`;
}

/** K for kilo and R for "ohms, and the point is here" are IEC 60062's; u for µ is what keyboards have. */
const POWER_OF = new Map<string, number>([...PREFIXES, ['K', 3], ['u', -6], ['R', 0]]);

const UNITS = ['Ω', 'F', 'H', 'V', 'A', 's', 'W', 'Hz'];

/** sign, digits, point or comma, digits, exponent, then the letters */
const PLAIN = /^([+-]?)(\d+|\d*[.,]\d+|\d+[.,])(e[+-]?\d+)?\s*([^\d\s.,]*)$/i;
/** the prefix stands where the point would: 4k7, 0R47, R47 */
const POINTED = /^([+-]?)(\d*)([TGMkKRmuµnpf])(\d+)\s*([^\d\s.,]*)$/;

/**
 * Reads one quantity in SI units. With `unit`, any other unit in the text is refused; without, every unit we know is welcome and so is none.
 * A comma is a decimal comma unless it could stand between thousands, which is refused rather than guessed.
 * Fails with `value/…`.
 */
export function parseQuantity(text: string, unit?: string): Outcome<number> {
  const tidy = text
    .trim()
    .replaceAll('μ', 'µ')
    .replaceAll('\u2126', 'Ω')
    .replaceAll('−', '-')
    .replace(/ohms?$/i, 'Ω');
  const example = `for example 680, 4k7 or 10 µ${unit ?? 'A'}`;
  if (tidy === '') return failed('value/empty', '', `There is nothing here: give a number, ${example}.`);
  if (/^[+-]?[1-9]\d{0,2}(,\d{3})+(?!\d)/.test(tidy))
    return failed(
      'value/ambiguous',
      shortened(text),
      `${shortened(text.trim())} may mean thousands or thousandths: write the number without a comma, or with a point.`,
    );

  const pointed = POINTED.exec(tidy);
  if (pointed) {
    const [, sign = '', whole = '', letter = '', fraction = '', rest = ''] = pointed;
    const power = POWER_OF.get(letter) ?? 0;
    const wrong = wrongUnit(text, letter === 'R' ? rest || 'Ω' : rest, unit);
    return wrong ?? done(Number(`${sign}${whole || '0'}.${fraction}e${power}`));
  }

  const plain = PLAIN.exec(tidy);
  if (!plain)
    return failed(
      'value/not-a-quantity',
      shortened(text),
      `${shortened(text.trim())} is not a quantity: give a number, a prefix and a unit, ${example}.`,
    );
  const [, sign = '', digits = '', exponent = 'e0', letters = ''] = plain;
  const [power, found] = readLetters(letters, unit);
  const wrong = wrongUnit(text, found, unit);
  return wrong ?? done(Number(`${sign}${digits.replace(',', '.')}e${Number(exponent.slice(1)) + power}`));
}

/** "kΩ" → [3, "Ω"]. What is a unit as a whole is the unit: "F" is farads. */
function readLetters(letters: string, unit: string | undefined): readonly [power: number, unit: string] {
  if (letters === '' || letters === unit || UNITS.includes(letters)) return [0, letters];
  if (letters === 'R') return [0, 'Ω'];
  const power = POWER_OF.get(letters.charAt(0));
  return power === undefined ? [0, letters] : [power, letters.slice(1)];
}

function wrongUnit(text: string, found: string, unit: string | undefined): Outcome<never> | undefined {
  if (found === '' || found === unit) return undefined;
  if (!UNITS.includes(found))
    return failed(
      'value/wrong-unit',
      shortened(text),
      `${shortened(text.trim())} ends in "${shortened(found)}", which is no unit known here: use ${unit ?? UNITS.join(', ')}, or leave it out.`,
    );
  return unit === undefined
    ? undefined
    : failed('value/wrong-unit', shortened(text), `${shortened(text.trim())} is in ${shortened(found)}, but ${unit} is asked for here.`);
}
