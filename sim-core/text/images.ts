/** How two memory images differ, in words: "D0 to D6 reversed", "A2 and A3 swapped", "all bits inverted", "row 2: bit 3". */

import { grouped } from '../../shared/grouped.ts';
import type { Comparison, WrongByte } from '../logic/compare/compare.ts';
import type { Stuck, StuckLine } from '../logic/compare/stuck-at.ts';
import { reversedRun, type Transform } from '../logic/compare/transform.ts';
import { hexByte } from '../units/hex.ts';
import { capitalised, enumeration } from '../units/text-list.ts';

/** Rows named one by one; more are counted. */
const NAMED = 6;

/** Sentences, the most important first. placeOf: what an address is called. */
export function sayComparison(c: Comparison, placeOf: (address: number) => string = (address) => `row ${address}`): string[] {
  const size = 2 ** c.addressPins;
  const differing = `${grouped(c.differs.length)} of ${grouped(size)} rows differ`;
  if (c.missing > 0) {
    const missing = `${c.missing === 1 ? 'One row that is' : `${grouped(c.missing)} rows that are`} wanted ${c.missing === 1 ? 'is' : 'are'} not in the file`;
    return c.differs.length === 0
      ? [`${missing}; the others are as wanted.`]
      : [
          `${missing}. Of the others ${c.differs.length === 1 ? 'one differs' : `${grouped(c.differs.length)} differ`}. ${sayRows(c.differs, placeOf)}.`,
        ];
  }
  if (c.differs.length === 0) return [`Both images are the same in all ${grouped(size)} rows, don’t-care bits aside.`];
  if (c.everywhere !== undefined)
    return [`Every byte is ${hexByte(c.everywhere)}${c.everywhere === 0xff ? ', as in an erased memory' : ''}. ${differing}.`];
  const changed = c.stuck ? sayStuck(c.stuck) : sayTransform(c.reading);
  if (changed === '') return [`${differing}. ${sayRows(c.differs, placeOf)}.`];
  if (c.unexplained.length > 0) {
    const left = c.unexplained.length;
    return [
      `${capitalised(changed)}: that explains the ${grouped(c.differs.length)} rows that differ, except ${left === 1 ? 'one' : grouped(left)}. ${sayRows(c.unexplained, placeOf)}.`,
    ];
  }
  const said = [`${capitalised(changed)}: that explains all ${grouped(c.differs.length)} rows that differ.`];
  if (c.stuck) said.push('Check for a wire or a pin with no contact.');
  const [other] = c.others.map(sayTransform).filter((o) => o !== changed && o !== '');
  if (c.ways === 1) said.push('Nothing else explains them.');
  else if (other !== undefined) said.push(`The table cannot distinguish it from: ${other}.`);
  for (const pins of c.alikePins) said.push(`${enumeration(pins.map((p) => `A${p}`))} can be swapped without any effect.`);
  return said;
}

/** Every change in one phrase; empty for no change. */
export function sayTransform(t: Transform): string {
  return [
    sayOrder(t.address, 'A'),
    sayInverted(t.addressInverted, t.address.length, 'A'),
    sayOrder(t.data, 'D'),
    sayInverted(t.dataInverted, t.data.length, 'D'),
    sayShift(t.shift),
  ]
    .filter((s) => s !== '')
    .join(', and ');
}

/** "D0 always 0, and A3 as if always low". */
function sayStuck({ data, address }: Stuck): string {
  const said = (lines: readonly StuckLine[], letter: string, high: boolean, how: string) => {
    const names = lines.filter((l) => l.high === high).map((l) => `${letter}${l.pin}`);
    return names.length === 0 ? [] : [`${enumeration(names)} ${how}`];
  };
  return [
    ...said(data, 'D', false, 'always 0'),
    ...said(data, 'D', true, 'always 1'),
    ...said(address, 'A', false, 'as if always low'),
    ...said(address, 'A', true, 'as if always high'),
  ].join(', and ');
}

function sayOrder(order: readonly number[], letter: string): string {
  const run = reversedRun(order);
  if (run)
    return run[1] - run[0] === 1
      ? `${letter}${run[0]} and ${letter}${run[1]} swapped`
      : `${letter}${run[0]} to ${letter}${run[1]} reversed`;
  const seen = new Set<number>();
  const cycles: string[] = [];
  for (const start of order.keys()) {
    if (seen.has(start) || order[start] === start) continue;
    const cycle: number[] = [];
    for (let pin = start; !seen.has(pin); pin = order[pin] ?? start) {
      seen.add(pin);
      cycle.push(pin);
    }
    const names = cycle.map((p) => `${letter}${p}`);
    cycles.push(
      cycle.length === 2
        ? `${names[0]} and ${names[1]} swapped`
        : names.map((n, i) => `${n} on ${names[(i + 1) % names.length]}`).join(', '),
    );
  }
  return cycles.join(', ');
}

function sayInverted(mask: number, pins: number, letter: string): string {
  if (mask === 0) return '';
  if (mask === 2 ** pins - 1) return letter === 'D' ? 'all bits inverted' : 'all address pins inverted';
  return `${enumeration(bitsOf(mask).map((b) => `${letter}${b}`))} inverted`;
}

const sayShift = (shift: number): string =>
  shift === 0
    ? ''
    : `every byte ${Math.abs(shift) === 1 ? 'one row' : `${grouped(Math.abs(shift))} rows`} too ${shift > 0 ? 'high' : 'low'}`;

function sayRows(wrong: readonly WrongByte[], placeOf: (address: number) => string): string {
  const said = wrong.slice(0, NAMED).map(({ address, bits }) => {
    const numbers = bitsOf(bits);
    return `${placeOf(address)}: ${numbers.length === 1 ? 'bit' : 'bits'} ${enumeration(numbers.map(String))}`;
  });
  return capitalised(said.join('; ')) + (wrong.length > NAMED ? `; and ${grouped(wrong.length - NAMED)} more rows` : '');
}

const bitsOf = (mask: number): number[] => Array.from({ length: 16 }, (_, b) => b).filter((b) => (mask >> b) & 1);
