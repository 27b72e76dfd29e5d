/** A proof in words: how many rows are right, what a wrong row shows, which switch disables a memory's outputs, and which has moved since the proof was signed. */

import { grouped } from '../../shared/grouped.ts';
import type { Plan } from '../../shared/plan.ts';
import { noun, type Sentence, sentenceOf, type Word } from '../sentence/wording.ts';
import { enumeration } from '../units/text-list.ts';

interface Pole {
  readonly part: string;
  readonly pole: number;
  /** the position it should have, or had */
  readonly closed: boolean;
}

const poleNoun = ({ part, pole }: Pole, plan: Plan): Word => noun({ kind: 'pole', id: `${part}.${pole + 1}` }, plan);
const word = (closed: boolean): string => (closed ? 'closed' : 'open');

/** "pole 1 of S3 (/OE) is closed, so the outputs of U1 are high-impedance (Z)"; one pole may disable several memories. */
export function sayDisabled(disabled: readonly (Pole & { readonly memory: string })[], plan: Plan): Sentence {
  const poles = disabled.filter((a, i) => disabled.findIndex((b) => b.part === a.part && b.pole === a.pole) === i);
  const memories = [...new Set(disabled.map((a) => a.memory))];
  const positions = listed(poles.map((p) => sentenceOf`${poleNoun(p, plan)} is ${word(!p.closed)}`));
  return memories.length > 1
    ? sentenceOf`${positions}, so the outputs of ${memories.join(' and ')} are high-impedance (Z)`
    : sentenceOf`${positions}, so the outputs of ${memories[0] ?? ''} are high-impedance (Z)`;
}

/** "pole 1 of S3 (/OE) was open and is now closed" */
export const sayMoved = (moved: readonly Pole[], plan: Plan): Sentence =>
  listed(moved.map((p) => sentenceOf`${poleNoun(p, plan)} was ${word(p.closed)} and is now ${word(!p.closed)}`));

const listed = (sentences: readonly Sentence[]): Sentence => sentences.flatMap((s, i) => (i === 0 ? [...s] : [', ', ...s]));

/** "PS1 is off. All of this was tried with it on." */
export const sayTriedOn = (off: readonly string[]): string =>
  `${enumeration(off)} ${off.length === 1 ? 'is' : 'are'} off. All of this was tried with ${off.length === 1 ? 'it' : 'them'} on.`;

/** "12 of 32 rows are right"; of those that the table asks for */
export const sayRight = (right: number, rows: number): string =>
  `${grouped(right)} of ${grouped(rows)} rows ${right === 1 ? 'is' : 'are'} right`;

/** "12 rows right, 3 wrong, 16 not asked, 1 not yet written": what there is none of is left out, but for those that are right. */
export function sayCounts({
  rows,
  right,
  notAsked,
  notWritten,
}: Readonly<Record<'rows' | 'right' | 'notAsked' | 'notWritten', number>>): string {
  const asked = right - notAsked;
  const others: readonly (readonly [number, string])[] = [
    [rows - right - notWritten, 'wrong'],
    [notAsked, 'not asked'],
    [notWritten, 'not yet written'],
  ];
  return [
    `${grouped(asked)} ${asked === 1 ? 'row' : 'rows'} right`,
    ...others.flatMap(([n, what]) => (n > 0 ? [`${grouped(n)} ${what}`] : [])),
  ].join(', ');
}

/** Rounded down, so that 100 % is all of them; of none it is all. */
export const sayPercent = (right: number, rows: number): string => (rows === 0 ? '100 %' : `${Math.floor((1000 * right) / rows) / 10} %`);

/** Bits of a row's outputs: wrong ones, undefined ones, and what all of them should be. */
interface WrongRow {
  readonly row: number;
  readonly wrong: number;
  readonly unknown: number;
  readonly wanted: number;
}

/** "row 3 (hot, damp): fan and vent should be lit and are dark"; the highest input and output first, as the table has them. */
export function sayRowOff({ row, wrong, unknown, wanted }: WrongRow, plan: Plan): string {
  const { inputs = [], outputs = [] } = plan.wanted ?? {};
  const named = (lines: ReadonlyArray<{ readonly name: string }>, mask: number) =>
    lines.flatMap((l, bit) => ((mask >> bit) & 1 ? [l.name] : [])).reverse();
  const some = (mask: number, one: string, several: string): string[] => {
    const names = named(outputs, mask);
    return names.length === 0 ? [] : [`${enumeration(names)} ${names.length === 1 ? one : several}`];
  };
  const off = [
    ...some(wrong & wanted, 'should be lit and is dark', 'should be lit and are dark'),
    ...some(wrong & ~wanted, 'should be dark and is lit', 'should be dark and are lit'),
    ...some(unknown, 'is undefined (X)', 'are undefined (X)'),
  ];
  return `row ${row} (${named(inputs, row).join(', ') || 'no input'}): ${off.join('; ')}`;
}
