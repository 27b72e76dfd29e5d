/** One clause for each cause of an explanation, which can stand after a colon: "pole 1 of S1 is open, and the path to the supply’s + goes through it". */

import { grouped } from '../../shared/grouped.ts';
import type { Plan } from '../../shared/plan.ts';
import { partKind } from '../parts/catalogue.ts';
import { inOhms, inVolts, noun, type Ref, type Sentence, sentenceOf, type Word } from '../sentence/wording.ts';
import { hex } from '../units/hex.ts';
import { siFormat } from '../units/quantity.ts';
import type { Reason } from '../why/answer.ts';
import { holesInRow, stripName } from '../why/nearby-holes.ts';

/** What a clause is made of: the things it is about by position, and the reason's data. */
interface ClauseParts {
  /** the name of the thing at this position */
  readonly n: (i: number) => Word;
  /** the switch pole of the thing at this position, numbered in the data */
  readonly pole: (i: number, field?: string) => Word;
  readonly d: Reason['data'];
  readonly count: number;
  /** the memory's address in hexadecimal, with 0x */
  readonly address: string;
}

export const levelWord = (level: unknown): string =>
  level === 'H' ? 'high' : level === 'L' ? 'low' : level === 'Z' ? 'high-impedance (Z)' : 'undefined (X)';

const railOf = (side: unknown): string => (side === 'high' ? 'the supply’s +' : 'the supply’s −');
const otherRail = (side: unknown): string => railOf(side === 'high' ? 'low' : 'high');
const otherLevel = (needed: unknown): string => (needed === 'high' ? 'low' : 'high');
export const position = (closed: unknown): string => (closed ? 'closed' : 'open');
export const withoutStop = (rule: string): string => rule.replace(/\.$/, '');

type Clause = (c: ClauseParts) => Sentence;

/** What is not as the bench is meant. */
const MEANT: Readonly<Record<string, Clause>> = {
  'meant-wire': ({ n }) => sentenceOf`${n(0)} from ${n(1)} to ${n(2)} is missing`,
  'meant-end': ({ n }) => sentenceOf`${n(0)} ends in ${n(1)}; as meant it ends in ${n(2)}`,
  'meant-without': ({ n }) => sentenceOf`${n(0)} is not part of the bench as meant`,
  'meant-part': ({ n, count }) => (count > 2 ? sentenceOf`${n(0)} from ${n(1)} to ${n(2)} is missing` : sentenceOf`${n(0)} is missing`),
  'meant-kind': ({ n, d }) => sentenceOf`${n(0)} is another part than is meant: ${String(d.kind)}`,
  'meant-place': ({ n, d }) => sentenceOf`${n(0)} stands at ${String(d.is)}; as meant it stands at ${String(d.hole)}`,
  'meant-leg': ({ n, d }) => sentenceOf`${n(1)} is in ${String(d.is)}; as meant it is in ${String(d.hole)}`,
  'meant-reversed': ({ n }) => sentenceOf`${n(0)} is the wrong way round: as meant its legs change places`,
  'meant-turned': ({ n }) => sentenceOf`${n(0)} is end for end: as meant it is rotated by half a turn`,
  'meant-value': ({ n, d }) => sentenceOf`${n(0)} is ${String(d.is)}; as meant it is ${String(d.meant)}`,
  'meant-rails': ({ n, d }) =>
    d.split
      ? sentenceOf`the rails of ${n(0)} are cut in the middle; as meant they are whole`
      : sentenceOf`the rails of ${n(0)} are whole; as meant they are cut in the middle`,
};

export const MEANT_CODES: readonly string[] = Object.keys(MEANT);

/** What a fix that was tried makes right: all of the table, or this LED wherever it was tried. */
const rowsRight = (everyRow: unknown): string => (everyRow ? 'every row is right' : 'this LED is right in every row that was tried');

const notRight: Clause = ({ n, count }) =>
  count > 1 && n(1) !== n(0)
    ? sentenceOf`${n(0)} and ${n(1)} are not right: with them put right`
    : sentenceOf`${n(0)} is not right: with it put right`;

/** What is not right with a thing, by what makes the rows right. */
const PUT_RIGHT: Readonly<Record<string, Clause>> = {
  end: ({ n, d }) => sentenceOf`${n(0)} ends in ${String(d.is)}: with this end in ${String(d.becomes)}`,
  exchanged: ({ n }) => sentenceOf`${n(0)} and ${n(1)} are swapped: with their ends the other way round`,
  leg: ({ n, d }) => sentenceOf`${n(0)} has a leg in ${String(d.is)}: with this leg in ${String(d.becomes)}`,
  row: ({ n, d }) => sentenceOf`${n(0)} is one row off: with its pin 1 in ${String(d.becomes)} instead of ${String(d.is)}`,
  place: ({ n, d }) => sentenceOf`${n(0)} is in the wrong place: with its pin 1 in ${String(d.becomes)} instead of ${String(d.is)}`,
  turned: ({ n }) => sentenceOf`${n(0)} is end for end: rotated by half a turn`,
  reversed: ({ n }) => sentenceOf`${n(0)} is reversed: the other way round`,
  value: ({ n, d }) => sentenceOf`${n(0)} is ${String(d.is)}: at ${String(d.becomes)}`,
  kind: ({ n, d }) =>
    sentenceOf`${n(0)} is of the wrong kind: with another in its place (${partKind(String(d.becomes))?.title ?? String(d.becomes)})`,
};

/** Causes between the supply and the LED. */
const PATH: Readonly<Record<string, Clause>> = {
  'supply-off': ({ n }) => sentenceOf`${n(0)} is switched off`,
  'no-supply-here': () => sentenceOf`there is no supply on this bench`,
  'part-damaged': ({ n }) => sentenceOf`${n(0)} is damaged and no longer conducts`,
  'pin-damaged': ({ n }) => sentenceOf`${n(0)} is burnt open`,
  'led-shorted': ({ d }) => sentenceOf`both its legs are in ${stripName(String(d.strip))}, which shorts it`,
  'led-reversed': ({ n }) => sentenceOf`${n(0)} is the wrong way round: its anode belongs on the positive side`,
  'led-bridged': () => sentenceOf`wires short its two legs`,
  'supply-reversed': ({ n }) => sentenceOf`the supply of ${n(0)} is reversed: its + and − are swapped`,
  'too-little-voltage': () => sentenceOf`too little voltage is left across it`,
  bypassed: ({ pole, d }) => sentenceOf`${pole(0)} is closed and connects it to ${otherRail(d.side)}`,
  'pulled-to-other-rail': ({ n, d }) => sentenceOf`${n(0)} has a better path to ${otherRail(d.side)} than to ${railOf(d.side)}`,
  'path-resistance-high': ({ n, d }) => sentenceOf`the path from ${n(0)} to ${railOf(d.side)} has too much resistance`,
  'capacitor-in-path': ({ n, d }) => sentenceOf`the only path to ${railOf(d.side)} goes through ${n(0)}, and a capacitor blocks DC`,
  'switch-open': ({ pole, d }) => sentenceOf`${pole(0)} is open, and the path to ${railOf(d.side)} goes through it`,
  'no-voltage-difference': () => sentenceOf`both its legs are at the same voltage`,
  'rail-not-connected': ({ d }) => sentenceOf`${stripName(String(d.strip))}, is not connected to ${railOf(d.side)}`,
  'led-not-connected': () => sentenceOf`it is not connected: nothing else is in the row of either leg`,
  'wire-end-alone': ({ n, d }) =>
    sentenceOf`${n(0)} ends in ${stripName(String(d.strip))}, where nothing else is: the path to ${railOf(d.side)} is open there`,
  'leg-alone': ({ n, d }) => sentenceOf`${n(1)} is alone in ${stripName(String(d.strip))}: the path to ${railOf(d.side)} is open there`,
  'put-right-mends': (c) => sentenceOf`${(PUT_RIGHT[String(c.d.how)] ?? notRight)(c)}, ${rowsRight(c.d.everyRow)}`,
  'part-missing': ({ n, d, count }) =>
    sentenceOf`${d.ohms === undefined ? n(0) : `a resistor of ${inOhms(Number(d.ohms))}`} between ${n(count - 2)} and ${n(count - 1)} is missing`,
  'rails-cut': ({ n }) => sentenceOf`the rails of ${n(0)} are cut in the middle, and nothing joins their halves`,
  'leg-at-other-rail': ({ n, d }) => sentenceOf`${n(0)} goes to ${otherRail(d.side)} instead of ${railOf(d.side)}`,
  'rails-apart': ({ n }) => sentenceOf`the rails of ${n(0)} are not joined`,
  'wire-at-other-rail': ({ n }) => sentenceOf`${n(0)} is in the wrong rail`,
  'wire-too-many': ({ n, d }) => sentenceOf`${n(0)} joins what has to stay apart: without it ${rowsRight(d.everyRow)}`,
  'one-row-off': ({ n, d }) =>
    sentenceOf`${n(1)} is ${Number(d.by) === 1 ? 'one row' : `${d.by} rows`} off, in ${stripName(String(d.beside))}: the path to ${railOf(d.side)} is open at ${holesInRow(String(d.strip))}`,
  'not-connected': ({ d }) =>
    d.strip === ''
      ? sentenceOf`open circuit: nothing else is plugged in where its path ends`
      : sentenceOf`open circuit: nothing in ${stripName(String(d.strip))}, connects to ${railOf(d.side)}`,
  'supply-shorted': ({ n, d, count }) =>
    sentenceOf`${n(count - 1)} is shorted${Number(d.wires) === 0 ? '' : sentenceOf` by ${wordList(Array.from({ length: count - 1 }, (_, i) => n(i)))}`}`,
  'supply-limits': ({ n }) => sentenceOf`${n(0)} is at its current limit, so its voltage sags`,
  'resistor-large': ({ n }) => sentenceOf`${n(0)} in series is too large`,
  'nothing-limits': () => sentenceOf`no resistor limits its current`,
  'resistor-limits': ({ n }) => sentenceOf`${n(0)} sets its current`,
  'output-drives': ({ n, d }) => sentenceOf`${n(0)} is ${levelWord(d.level)} and drives it`,
  'fed-by-supply': () => sentenceOf`the supply feeds it directly, not through a memory`,
};

/** Causes at the pins of a chip, and in what it stores. */
const CHIP: Readonly<Record<string, Clause>> = {
  'pin-floats': ({ n, d }) =>
    d.high
      ? sentenceOf`${n(0)} floats: it is not connected, and an open input of its family counts as high`
      : sentenceOf`${n(0)} floats: it is not connected, and its own leakage can pull it to any level`,
  'pin-by-switch': ({ n, pole, d }) => sentenceOf`${n(0)} is ${otherLevel(d.needed)} because ${pole(1)} is ${position(d.closed)}`,
  'pin-tied': ({ n, d, count }) =>
    count > 1 ? sentenceOf`${n(1)} ties ${n(0)} to ${railOf(d.rail)}` : sentenceOf`${n(0)} is tied to ${railOf(d.rail)}`,
  'pin-pulled': ({ n, d, count }) =>
    count > 1 && !d.alone
      ? sentenceOf`${n(1)} pulls ${n(0)} ${otherLevel(d.needed)}`
      : count > 1
        ? sentenceOf`only ${n(1)} sets the level of ${n(0)}, and it pulls it ${otherLevel(d.needed)}`
        : sentenceOf`${n(0)} is held ${otherLevel(d.needed)}`,
  'chip-supply-low': ({ n, d }) =>
    sentenceOf`${n(0)} has less than the ${siFormat(Number(d.least), 'V')} that its data sheet specifies, so the levels it drives are undefined (X)`,
  'chip-no-supply': ({ n }) => sentenceOf`${n(0)} has no supply, so its outputs drive nothing`,
  'output-disabled': ({ n, d }) =>
    d.level === 'X'
      ? sentenceOf`${n(1)} is undefined (X), so the data pins may be driving or high-impedance (Z)`
      : sentenceOf`${n(1)} is ${levelWord(d.level)}, so the data pins are high-impedance (Z)`,
  'chip-storing': ({ n }) => sentenceOf`${n(0)} is still storing the last byte`,
  'output-overpowered': ({ n, d }) => sentenceOf`${n(0)} drives ${String(d.needed)}, but something stronger overrides it`,
  'logic-output': ({ n, d }) =>
    sentenceOf`${n(0)} is ${levelWord(d.level)} because ${n(1)} is ${levelWord(d.is)}; that input has to be ${levelWord(d.needs)}`,
  'logic-inputs': ({ n, d }) => sentenceOf`${n(0)} is ${levelWord(d.level)}: more than one input of ${n(1)} would have to change`,
  'logic-stored': ({ n, d }) => sentenceOf`${n(0)} is ${levelWord(d.level)}: ${n(1)} has stored that`,
  'address-unknown': ({ n, d }) =>
    sentenceOf`${n(0)} is undefined (X), so the memory may be reading any of ${grouped(Number(d.bytes))} bytes, and they differ in this bit`,
  'bit-uncertain': ({ d, address }) => sentenceOf`bit ${Number(d.bit)} of the byte at ${address} is uncertain since the last write`,
  'stored-bit': ({ d, address }) =>
    sentenceOf`the byte at ${address} is ${hex(Number(d.byte), 2)}: its bit ${Number(d.bit)} is ${Number(d.value)}`,
  'wrong-address': ({ n, pole, d, address }) =>
    sentenceOf`the memory reads address ${address}, but the switches are set for 0x${hex(Number(d.meant), Number(d.digits))}: ${n(0)} reads ${levelWord(d.reads)} although ${inputPole(pole(1), String(d.input))} is ${position(d.closed)}`,
  'pin-at-other-pole': ({ n, pole, count }) =>
    sentenceOf`${n(count - 2)} is wired to ${pole(count - 1)} instead of ${pole(count - 1, 'meant')}`,
  'pull-missing': ({ n, d }) => sentenceOf`${n(0)} has no resistor of ${inOhms(Number(d.ohms))} that holds it, as the other inputs have`,
  'pins-untied': ({ n, d }) =>
    sentenceOf`${String(d.pins)} of ${n(0)} float: no input of the table uses them, and nothing ties them to ${railOf(d.side)}`,
  'pull-of-other-value': ({ n, d }) =>
    sentenceOf`${n(0)} is too large to hold ${n(1)}: ${inOhms(Number(d.ohms))}, and the other inputs have ${inOhms(Number(d.usual))}`,
  'wire-missing': ({ n }) => sentenceOf`a wire between ${n(0)} and ${n(1)} is missing`,
  'supply-set-low': ({ n, d }) =>
    sentenceOf`${n(0)} is set to ${inVolts(Number(d.volts))}, and ${inVolts(Number(d.least))} is the least that is specified`,
  'not-as-wanted': ({ n, d, address }) =>
    d.erased
      ? sentenceOf`${n(0)} is not written at ${address}: the table wants bit ${Number(d.bit)} there to be ${Number(d.wants)}`
      : sentenceOf`${n(0)} holds the wrong bit: the table wants bit ${Number(d.bit)} at ${address} to be ${Number(d.wants)}`,
  'bytes-unlike-table': ({ n, d, address }) =>
    sentenceOf`${Number(d.bytes) === 1 ? 'one byte' : `${grouped(Number(d.bytes))} bytes`} of ${n(0)} differ${Number(d.bytes) === 1 ? 's' : ''} from the table: at ${address} is ${hex(Number(d.stored), 2)}, and the table wants ${hex(Number(d.wants), 2)}`,
  'outside-table': ({ n, address }) =>
    sentenceOf`nothing of the table is stored at address ${address}: ${n(0)}, which no input of the table uses, is high and has to be low`,
  'other-output': ({ n, d }) => sentenceOf`it is fed from ${n(0)}, which is ${String(d.shows)}; ${String(d.name)} is ${n(1)}`,
  'wires-exchanged': ({ n, count }) => sentenceOf`${wordList(Array.from({ length: count }, (_, i) => n(i)))} reach each other’s pins`,
  'as-wanted': ({ d }) =>
    d.rule === '' ? sentenceOf`that is what the table wants` : sentenceOf`that is what the table wants: ${withoutStop(String(d.rule))}`,
};

export const wordList = (words: readonly Word[]): Sentence =>
  words.flatMap((w, i) => (i === 0 ? [w] : [i === words.length - 1 ? ' and ' : ', ', w]));

export const nounAt = (at: readonly Ref[], i: number, plan: Plan): Word => {
  const ref = at[i];
  return ref ? noun(ref, plan) : 'it';
};

/** A pole without a name of its own is told by its input's. */
const inputPole = (pole: Word, input: string): Sentence =>
  typeof pole !== 'string' && pole.text.startsWith('switch ') ? [pole] : sentenceOf`${input} (${pole})`;

export const poleAt = (at: readonly Ref[], i: number, pole: unknown, plan: Plan): Word =>
  noun({ kind: 'pole', id: `${at[i]?.id ?? ''}.${String(pole)}` }, plan);

/** Throws for a cause that has no words. */
export function clauseOf({ code, at, data }: Reason, plan: Plan): Sentence {
  const clause = PATH[code] ?? CHIP[code] ?? MEANT[code];
  if (!clause) throw new Error(`no words for the reason ${code}`);
  return clause({
    n: (i) => nounAt(at, i, plan),
    pole: (i, field = 'pole') => poleAt(at, i, data[field], plan),
    d: data,
    count: at.length,
    address: `0x${hex(Number(data.address), Number(data.digits))}`,
  });
}
