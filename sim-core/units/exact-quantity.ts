/** Numbers as short quantities that read back to the very same number: 4700 → `4k7`, 1e-7 → `100n`. */
import { parseQuantity } from './quantity.ts';

/** By third powers of ten, from femto to tera; what a keyboard has not is written as one does there. */
const LETTERS = ['f', 'p', 'n', 'u', 'm', '', 'k', 'M', 'G', 'T'];
const LEAST_THIRD = -5;

export function exactQuantity(value: number): string {
  const plain = Object.is(value, -0) ? '-0' : String(value);
  const short = withPrefix(value);
  const read = short === undefined ? undefined : parseQuantity(short);
  return short !== undefined && read?.ok && Object.is(read.value, value) ? short : plain;
}

function withPrefix(value: number): string | undefined {
  const m = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(value.toExponential());
  if (!m || value === 0) return undefined;
  const [, sign = '', first = '', rest = '', power = ''] = m;
  const third = Math.floor(Number(power) / 3);
  const letter = LETTERS[third - LEAST_THIRD];
  if (letter === undefined) return undefined;
  const before = Number(power) - 3 * third + 1;
  const digits = (first + rest).padEnd(before, '0');
  const fraction = digits.slice(before);
  if (fraction === '') return `${sign}${digits}${letter}`;
  return letter === '' ? `${sign}${digits.slice(0, before)}.${fraction}` : `${sign}${digits.slice(0, before)}${letter}${fraction}`;
}
