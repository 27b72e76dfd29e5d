/** Now serving: two BCD digits in, two seven-segment digits out, on two memories that share their address wires. */
import { counted, type DemoTable } from './table.ts';

const segments = (digit: string): readonly string[] => ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((s) => `${digit}${s}`);
const group = (digit: string): string => `{${segments(digit).toReversed().join(', ')}}`;

export const ticketCounter: DemoTable = {
  id: 'ticket-counter',
  title: 'Bakery ticket counter',
  description:
    'Units and tens as BCD on eight switches, two 7-segment displays that show the number being served. Below ten the tens stay dark.',
  inputs: [...counted('U', 4), ...counted('T', 4)],
  outputs: [...segments('u'), ...segments('t')],
  rules: `units = U3..U0
tens = T3..T0
${group('u')} = digit(units)
${group('t')} = if tens = 0 then 0 else digit(tens)
dontcare when units > 9 OR tens > 9`,
};
