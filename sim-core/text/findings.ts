/** Every finding in words: what is so, the figure, the limit, the cure, in that order. One entry a rule; a test holds that none is missing. */

import { grouped } from '../../shared/grouped.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Finding } from '../findings/finding.ts';
import { overloadWords } from '../sentence/damage.ts';
import { capital, noun, sentenceOf } from '../sentence/nouns.ts';
import type { Ref } from '../sentence/ref.ts';
import type { Sentence, Word } from '../sentence/sentence.ts';
import { siFormat } from '../units/quantity.ts';
import { sayFigure } from './margins.ts';

/** What the words of a rule are made from. */
interface Telling {
  /** the noun at this place; a bare word if the finding names fewer things */
  readonly it: (place: number) => Word;
  /** the same for a pin of a chip that the sentence has named: "its pin 12 (GND)" */
  readonly its: (place: number) => Word;
  /** all things from this place on: "A, B and C" */
  readonly rest: (from: number) => Sentence;
  readonly has: (place: number) => boolean;
  /** a figure of the data with its unit */
  readonly figure: (name: string, unit: string) => string;
  readonly number: (name: string) => number;
  /** a number of things */
  readonly count: (name: string) => string;
  readonly text: (name: string) => string;
  /** the last thing as the specimen that the data's figure, value and unit make it: "supply PS1 at 5.5 V" */
  readonly special: () => Sentence;
}

/** A finding as a sentence or a few. */
export function sayFinding(f: Finding, plan: Plan): Sentence {
  const words = WORDS[f.code];
  if (!words) throw new Error(`no words for ${f.code}`);
  const it = (ref: Ref | undefined): Word => (ref ? noun(ref, plan) : 'the bench');
  const number = (name: string): number => Number(f.data[name]);
  const said = words({
    it: (place) => it(f.at[place]),
    its: (place) => ownPin(it(f.at[place])),
    rest: (from) => listed(f.at.slice(from).map((ref) => noun(ref, plan))),
    has: (place) => f.at.length > place,
    number,
    count: (name) => grouped(number(name)),
    figure: (name, unit) => inUnit(number(name), unit),
    text: (name) => String(f.data[name] ?? ''),
    special: () => sayFigure(f.at.at(-1)?.id ?? '', String(f.data.figure), number('value'), String(f.data.unit), plan),
  });
  const [first = '', ...others] = said;
  const when = typeof f.data.when === 'string' ? ` This is with ${f.data.when}.` : '';
  return [capital(first), ...others, ...(when === '' ? [] : [when])];
}

/** Tenths of a volt as data sheets print them, everything else with its prefix. */
const inUnit = (value: number, unit: string): string =>
  unit === 'V' && Math.abs(value) >= 0.1 && Math.abs(value) < 1
    ? `${String(Number(value.toPrecision(3))).replace('-', '−')} V`
    : siFormat(value, unit);

/** "pin 12 (GND) of U1" → "its pin 12 (GND)" */
const ownPin = (w: Word): Word => (typeof w === 'string' ? w : { ...w, text: `its ${w.text.replace(/^the | of \w+$/g, '')}` });

/** "A", "A and B", "A, B and C". */
const listed = (words: readonly Word[]): Sentence =>
  words.flatMap((w, i): Word[] => (i === 0 ? [w] : [i === words.length - 1 ? ' and ' : ', ', w]));

const WORDS: Readonly<Record<string, (t: Telling) => Sentence>> = {
  'bench/no-operating-point': (t) =>
    sentenceOf`No voltages were found that fit the whole bench; the search got stuck at ${t.it(0)}. What LEDs and meters show now is not to be trusted: take the last change back and see what is joined there.`,

  'bench/oscillates': (t) =>
    sentenceOf`${t.rest(0)} ${t.number('chips') === 1 ? 'answers itself' : 'answer each other'} for ever, so the bench never comes to rest, and what it shows is one moment of many. Break the loop from an output back to an input.`,

  'board/rail-half-not-connected': (t) =>
    sentenceOf`The ${t.text('half')} half of rail ${railName(t.text('rail'))} on ${t.it(2)} is in use and joined to no supply; only its other half is. Join ${t.it(0)} and ${t.it(1)} with a wire.`,
  'board/rail-not-connected': (t) =>
    sentenceOf`Nothing feeds rail ${railName(t.text('rail'))} on ${t.it(0)}, and ${t.number('parts') > 3 ? sentenceOf`${t.it(2)} and ${t.number('parts') - 1} more parts` : t.rest(2)} ${t.number('parts') > 1 ? 'hang' : 'hangs'} on it. Put a wire from ${t.it(1)} into it.`,

  'capacitor/over-voltage': (t) =>
    sentenceOf`${t.it(0)} has ${t.figure('measured', 'V')} across it (it is made for ${t.figure('limit', 'V')}). Lower the supply, or use one that is made for more.`,
  'capacitor/reversed': (t) =>
    sentenceOf`${t.it(0)} is the wrong way round: ${t.figure('measured', 'V')} stands on its minus leg against its plus leg (limit ${t.figure('limit', 'V')}), and it may burst. Switch off and change its two legs.`,

  'chip/no-decoupling': (t) =>
    t.number('measured') > 0
      ? sentenceOf`${t.it(0)} has only ${t.figure('measured', 'F')} between ${t.its(1)} and ${t.its(2)} (at least ${t.figure('limit', 'F')} is needed). Put ${t.figure('cure', 'F')} there, close to the chip.`
      : sentenceOf`${t.it(0)} has no capacitor between ${t.its(1)} and ${t.its(2)} (at least ${t.figure('limit', 'F')} is needed). Put ${t.figure('cure', 'F')} there, close to the chip.`,
  'chip/no-supply': (t) =>
    t.text('which') === 'both'
      ? sentenceOf`${t.it(0)} has no supply: neither ${t.its(1)} nor ${t.its(2)} is joined to one (${range(t)} is needed between them). Wire them to the plus and the minus rail.`
      : sentenceOf`${t.it(0)} has no supply: ${t.its(1)} is joined to none (${range(t)} is needed). Wire it to the ${t.text('which') === 'ground' ? 'minus' : 'plus'} rail.`,
  'chip/package-over-current': (t) =>
    sentenceOf`The outputs of ${t.it(0)} together ${t.text('way')} ${t.figure('measured', 'A')} through ${t.its(1)} (limit ${t.figure('limit', 'A')}). Keep each of the ${t.number('outputs')} to at most ${t.figure('share', 'A')} with larger resistors.`,
  'chip/supply-dip': (t) =>
    sentenceOf`${t.it(0)} had only ${t.figure('measured', 'V')} at ${t.its(1)} for ${t.figure('seconds', 's')} (its data sheet holds from ${t.figure('limit', 'V')} on), though it stands well before and after. Put ${t.figure('cure', 'F')} between there and ${t.its(2)}, close to the chip, and shorten the wires of its supply.`,
  'chip/supply-out-of-range': (t) =>
    sentenceOf`${t.it(0)} gets ${t.figure('measured', 'V')} at ${t.its(1)} (its data sheet holds for ${range(t)}${t.number('ceiling') < t.number('measured') ? `, and more than ${t.figure('ceiling', 'V')} may destroy it` : ''}). Set the supply to ${siFormat((t.number('least') + t.number('most')) / 2, 'V')}${t.number('measured') < t.number('least') ? ' and look for what else takes its current' : ''}.`,
  'chip/supply-reversed': (t) =>
    t.text('which') === 'both'
      ? sentenceOf`${t.it(0)} has its supply the wrong way round: ${t.its(1)} is joined to minus and ${t.its(2)} to plus, so ${t.figure('measured', 'V')} is put on it (limit ${t.figure('limit', 'V')}). Switch off and change the two.`
      : sentenceOf`${t.it(0)} has its supply the wrong way round: ${t.its(1)} is joined to ${t.text('which') === 'supply' ? 'minus' : 'plus'}, against ${t.figure('volts', 'V')}. Switch off and wire it to ${t.text('which') === 'supply' ? 'plus' : 'minus'}.`,

  'input/between-levels': (t) =>
    sentenceOf`${t.it(0)} stands at ${t.figure('measured', 'V')}, which is neither low (up to ${t.figure('vil', 'V')}) nor high (from ${t.figure('vih', 'V')}). Find the two things that pull it apart, and weaken one with a larger resistor.`,
  'input/floating': (t) =>
    sentenceOf`${t.it(0)} floats: ${t.number('measured') > NOTHING ? 'nothing holds it' : `only ${t.figure('measured', 'Ω')} holds it`}, and up to ${t.figure('leakage', 'A')} of leakage can carry it past ${t.figure('vil', 'V')} (limit ${t.figure('limit', 'Ω')}). Hold it with ${t.figure('cure', 'Ω')} to a rail; leakage then moves it by ${t.figure('drift', 'V')} at most.`,

  'led/dim': (t) =>
    sentenceOf`${t.it(0)} glows faintly with ${t.figure('measured', 'A')} (it looks lit from ${t.figure('limit', 'A')} on). Put a smaller resistor in series with it, or find what else takes its current.`,
  'led/current-not-guaranteed': (t) =>
    sentenceOf`${t.it(0)} lights ${t.number('leds') > 3 ? sentenceOf`${t.it(1)} and ${t.number('leds') - 1} more` : t.rest(1)} only as a typical specimen, with ${t.figure('typical', 'A')}: its data sheet guarantees ${t.figure('measured', 'A')} (an LED looks lit from ${t.figure('limit', 'A')}). Put a buffer between, or let the output take the LED’s current instead of giving it.`,
  'led/no-series-resistor': (t) =>
    sentenceOf`${t.it(0)} has ${t.number('measured') < 1 ? 'no resistor' : `only ${t.figure('measured', 'Ω')}`} in its path${t.has(2) ? sentenceOf` from ${t.it(1)} to ${t.it(2)}` : ''} (at least ${t.figure('limit', 'Ω')} counts as a limit). Put ${ohms(t, 'cure')} in series; that makes at most ${t.figure('aim', 'A')}.`,
  'led/over-current': (t) =>
    sentenceOf`${t.it(0)} draws ${t.figure('measured', 'A')} (limit ${t.figure('limit', 'A')}). Have at least ${ohms(t, 'cure')} in series with it.`,
  'led/reverse-over-voltage': (t) =>
    sentenceOf`${t.it(0)} has ${t.figure('measured', 'V')} the wrong way round (limit ${t.figure('limit', 'V')}). Turn it, or lower the supply.`,
  'led/reversed': (t) =>
    sentenceOf`${t.it(0)} is the wrong way round: current can come to ${t.its(2)}, and it must come to ${t.its(1)}. Change its two legs.`,

  'memory/cell-worn': (t) =>
    sentenceOf`${t.it(0)}: the cell at address ${t.text('address')} has been written ${t.count('measured')} times (${t.count('limit')} are promised). It holds ${t.text('byte')} for now, but may lose it early: use another address, or a fresh memory.`,
  'memory/not-as-wanted': (t) => {
    if (t.text('state') === 'forgotten')
      return sentenceOf`${t.it(0)} forgets its bytes without its supply, and holds none of the table yet. Switch the supply on, then write them.`;
    const rows = t.number('rows');
    const first = `${rows === 1 ? '' : 'first '}in row ${t.number('row')}, address ${t.text('address')}, it holds ${t.text('stored')} and ${t.text('wants')} is wanted`;
    const pins = t.number('pins') > 3 ? sentenceOf`${t.number('pins')} of its data pins` : listed([1, 2, 3].filter(t.has).map(t.its));
    const where = sentenceOf`${t.count('rows')} of ${t.count('of')} rows of the table, at ${pins}`;
    if (t.text('state') === 'blank')
      return sentenceOf`${t.it(0)} is blank, and that is not what is wanted in ${where}: ${first}. Write the bytes into it.`;
    return t.text('state') === 'begun'
      ? sentenceOf`${t.it(0)} is not all written yet: bytes are still erased, and that is not what is wanted in ${where}: ${first}. Write ${rows === 1 ? 'that byte' : 'those bytes'} too.`
      : sentenceOf`${t.it(0)} holds something else than is wanted in ${where}: ${first}. Write ${rows === 1 ? 'that byte' : 'those bytes'} anew, or mend the table.`;
  },
  'memory/not-erased': (t) =>
    sentenceOf`${t.it(0)}: byte ${t.text('byte')} asks for a 1 at address ${t.text('address')} where a 0 is stored, and a pulse only makes zeros of ones. Erase it under ultraviolet light, then program it.`,
  'memory/other-page': (t) =>
    sentenceOf`${t.it(0)}: byte ${t.text('byte')} for address ${t.text('address')} came while bytes of another page were being loaded, so nobody can tell where it went. Wait for the write cycle to end between two pages, then write it again.`,
  'memory/pulse-not-guaranteed': (t) =>
    t.text('why') === 'pulse-sure-low'
      ? sentenceOf`${t.it(0)}: with ${t.it(1)} pressed, the write pulse is surely low for ${t.figure('nominal', 's')} as drawn, but for only ${t.figure('measured', 's')} with the worst of all parts together (at least ${t.figure('limit', 's')} is needed). What matters most is ${t.special()}. Use a capacitor ${times(t.number('limit') / t.number('measured'))} larger, or a larger resistor.`
      : sentenceOf`${t.it(0)}: with ${t.it(1)} pressed, the write pulse may be low for ${t.figure('nominal', 's')} as drawn, but for ${t.figure('measured', 's')} with the worst of all parts together (the longest that its data sheet names is ${t.figure('limit', 's')}). What matters most is ${t.special()}. Use a capacitor ${times(t.number('measured') / t.number('limit'))} smaller, or a smaller resistor.`,
  'memory/write-ignored': (t) =>
    sentenceOf`${t.it(0)} took no notice of ${attempts(t)} at address ${t.text('address')}: ${IGNORED[t.text('why')]?.(t) ?? ''}`,
  'memory/write-pulse-long': (t) =>
    sentenceOf`${t.it(0)}: the write pulse may have been low for ${t.figure('measured', 's')} (the longest that its data sheet names is ${t.figure('limit', 's')}; other sheets name none). Use a capacitor ${times(t.number('measured') / t.number('limit'))} smaller, or a smaller resistor.`,
  'memory/write-pulse-short': (t) =>
    sentenceOf`${t.it(0)}: the write pulse was surely low for ${t.number('measured') > 0 ? t.figure('measured', 's') : 'no time'} (at least ${t.figure('limit', 's')} is needed), so ${writing(t)} is uncertain. Use a capacitor ${t.number('measured') > 0 ? `${times(t.number('limit') / t.number('measured'))} ` : ''}larger, or a larger resistor, and write again.`,
  'memory/setup-or-hold': (t) => sentenceOf`${t.it(0)}: ${LATE[t.text('why')]?.(t) ?? ''}`,
  'memory/write-undefined': (t) => sentenceOf`${t.it(0)}: ${UNCERTAIN[t.text('why')]?.(t) ?? ''}`,

  'net/bus-contention': (t) =>
    t.text('against') === 'output'
      ? sentenceOf`${t.it(0)} and ${t.it(1)} pull against each other with ${t.figure('measured', 'A')} (limit ${t.figure('limit', 'A')}); between them stands ${t.figure('volts', 'V')}. Take the wire between the two out.`
      : sentenceOf`${t.it(0)} pulls ${t.text('way')} against ${t.has(1) ? t.it(1) : 'the supply'} with ${t.figure('measured', 'A')} (limit ${t.figure('limit', 'A')}). Let the pin go before joining it to a rail, or join it through 1 kΩ.`,

  'part/both-legs-in-one-row': (t) =>
    t.number('legs') === 2
      ? sentenceOf`${t.it(0)} has both legs in one row, and the board joins them: it does nothing. Move one leg to another row.`
      : sentenceOf`${t.it(0)} has pins ${t.text('pins')} in one row, and the board joins them${t.number('pairs') > 1 ? ` (${t.number('pairs')} such pairs)` : ''}. Place it across the trench.`,
  'part/damaged': (t) => {
    const { who, did, unit } = overloadWords(t.text('by'));
    const bore = `${who} ${did} ${t.figure('measured', unit)} (limit ${t.figure('limit', unit)})`;
    if (t.has(1))
      return sentenceOf`${t.it(0)} is damaged at ${t.rest(1)}: ${bore}, and joins nothing there any more. Take away the cause, then replace it.`;
    return sentenceOf`${t.it(0)} is damaged: ${bore}${t.text('left') === 'conducts' ? ', and conducts like a small resistor now' : ''}. Take away the cause, then replace it.`;
  },

  'part/leg-not-connected': (t) =>
    t.number('wires') === 0
      ? sentenceOf`${t.it(0)} is in ${pointRef(t.text('hole'))}, and nothing else is in its row. Move it, or a wire, to the row that was meant.`
      : sentenceOf`${t.it(0)} is in ${pointRef(t.text('hole'))}, and from there ${t.rest(2)} ${t.has(3) ? 'wire' : 'wires'} to nothing. Move a wire, or the leg, to the row that was meant.`,

  'pin/level-not-guaranteed': (t) =>
    sentenceOf`High is only promised to be ${t.figure('measured', 'V')} by ${t.it(1)}, and ${t.it(0)} needs ${t.figure('limit', 'V')}${t.number('pins') > 1 ? ` (and so on for ${t.number('pins')} pins of the two)` : ''}: outputs usually give more, but by luck. Use a listening chip with TTL levels, or put ${t.figure('cure', 'Ω')} from the pin to plus.`,
  'pin/over-current': (t) =>
    t.has(1)
      ? sentenceOf`${t.rest(1)} ${t.has(2) ? 'draw' : 'draws'} ${t.figure('measured', 'A')} from ${t.it(0)} (limit ${t.figure('limit', 'A')}). Put at least ${ohms(t, 'cure')} in series${t.has(2) ? ' with each' : ''}.`
      : sentenceOf`${t.it(0)} ${t.text('way')} ${t.figure('measured', 'A')} (limit ${t.figure('limit', 'A')}). Put at least ${ohms(t, 'cure')} between it and what it drives.`,

  'pin/over-voltage': (t) => {
    if (t.text('why') === 'most')
      return sentenceOf`${t.it(0)} stands at ${t.figure('measured', 'V')} (limit ${t.figure('limit', 'V')}), which may pierce it. Lower that voltage.`;
    const beyond = t.text('why') === 'above' ? `above the chip’s supply of ${t.figure('supply', 'V')}` : 'below its ground pin';
    return sentenceOf`${t.it(0)} stands at ${t.figure('volts', 'V')}, ${beyond}, and ${t.figure('measured', 'A')} flows through the pin’s diode (limit ${t.figure('limit', 'A')}). It has no use for such a voltage: wire it to the chip’s own supply, or put ${t.figure('cure', 'Ω')} before it.`;
  },

  'part/over-power': (t) =>
    sentenceOf`${t.it(0)} turns ${t.figure('measured', 'W')} into heat (limit ${t.figure('limit', 'W')}). ${t.text('cure') === 'value' ? 'Use a larger value' : 'Let it carry less current, or less voltage'}, or share the load between several.`,

  'supply/current-limit': (t) =>
    t.text('joined') === 'yes'
      ? sentenceOf`The terminals of ${t.it(0)} are joined by wires: it gives ${t.figure('measured', 'A')} (limit ${t.figure('limit', 'A')}) at ${t.figure('volts', 'V')}. Switch off and take ${t.has(1) ? t.it(1) : 'the wire between them'} out.`
      : sentenceOf`${t.it(0)} is at its limit: ${t.figure('measured', 'A')} (limit ${t.figure('limit', 'A')}), and only ${t.figure('volts', 'V')} of ${t.figure('set', 'V')} is left. Switch off and look ${t.has(1) ? sentenceOf`at ${t.rest(1)}` : 'for a short'}.`,
  'supply/grounds-not-connected': (t) =>
    sentenceOf`${t.it(0)} and ${t.it(1)} have no terminal in common, so no current comes back from one to the other, and what is high for one means nothing to the other. Join ${t.it(2)} and ${t.it(3)} with a wire.`,

  'switch/one-side-only': (t) =>
    t.number('wired') > 1
      ? sentenceOf`${t.it(0)} is wired at ${t.its(1)} and ${t.its(2)}, which are one piece of metal inside it: they are always joined, and pressing changes nothing. Move one of the two to the row of ${t.its(3)}.`
      : sentenceOf`${t.it(0)} is wired at ${t.its(1)} only, so pressing joins nothing. Wire what it is to join to the row of ${t.its(2)}.`,
  'switch/pole-shorts-supply': (t) =>
    sentenceOf`${t.text('momentary') === 'yes' ? sentenceOf`Pressing ${t.it(0)}` : sentenceOf`Closing pole ${t.number('pole')} of ${t.it(0)}`} joins the terminals of ${t.it(3)}: ${t.figure('measured', 'A')} flows (limit ${t.figure('limit', 'A')}). Wire one side elsewhere, or put 10 kΩ between.`,
};

/** Above this resistance nothing to speak of holds a net [Ω]. */
const NOTHING = 1e9;

const ohms = (t: Telling, name: string): string => t.figure(name, 'Ω').replace(/ Ω$/, ' ohm').replace(/ kΩ$/, ' kilohm');
const range = (t: Telling): string => `${t.number('least')} to ${siFormat(t.number('most'), 'V')}`;
const times = (factor: number): string => `${siFormat(Math.max(factor, 1.1), '', 2).trim()} times`;
const railName = (rail: string): string => (rail.startsWith('+') ? rail : `−${rail.slice(1)}`);
const pointRef = (hole: string): Word => ({ text: hole, ref: { kind: 'point', id: hole } });
const writing = (t: Telling): string => `byte ${t.text('byte')} for address ${t.text('address')}`;
const attempts = (t: Telling): string => (t.number('count') > 1 ? `${t.count('count')} writes, one` : 'a write');

const IGNORED: Readonly<Record<string, (t: Telling) => string>> = {
  'output-enable-low': () => '/OE was low, and it must be high from beginning to end. Set /OE high and press again.',
  busy: () => 'it was still storing the byte before. Wait for its write cycle to end, then press again.',
  'supply-low': (t) =>
    `its supply was at ${t.figure('measured', 'V')} (at least ${t.figure('limit', 'V')} is needed). Raise the supply and press again.`,
  'just-powered': (t) =>
    `it had its supply for ${t.figure('measured', 's')} only (it locks writes out for ${t.figure('limit', 's')}). Wait, then press again.`,
  protected: () =>
    'its software protection is on, so it stores nothing. Write its three enabling bytes before the byte, or its six disabling bytes once.',
  'no-program-voltage': (t) =>
    `VPP was below ${t.figure('limit', 'V')}, and without its programming supply nothing is stored. Bring VPP to its programming voltage, then pulse again.`,
  glitch: (t) =>
    `the pulse was low for ${t.figure('measured', 's')} at most, too short to be seen (at least ${t.figure('limit', 's')} is needed). Use a larger capacitor or resistor for the pulse.`,
};

const UNCERTAIN: Readonly<Record<string, (t: Telling) => string>> = {
  'address-unknown': (t) =>
    `byte ${t.text('byte')} was written while the address could not be told (${t.text('address')}), so every address it may have meant is uncertain now. Hold every address pin low or high, then write again.`,
  'data-unknown': (t) =>
    `what was written to address ${t.text('address')} could not be told on every data pin (${t.text('byte')}), so those bits are uncertain. Hold every data pin low or high, then write again.`,
  'output-enable-unknown': (t) =>
    `/OE was neither low nor high while byte ${t.text('byte')} was written to address ${t.text('address')}, so that byte is uncertain. Hold /OE high and write again.`,
  'never-sure-low': (t) =>
    `the write pulse to address ${t.text('address')} never came surely low, so that byte is uncertain. Let the pulse reach ground, then write again.`,
};

/** A pin that did not stand still for long enough, by the time that was not kept. */
const LATE: Readonly<Record<string, (t: Telling) => string>> = {
  'address-setup': (t) =>
    `the address ${stood(t)} (at least ${t.figure('limit', 's')} is needed), so ${writing(t)} may have gone to another address. Set the address first, then press.`,
  'address-hold': (t) =>
    `the address moved ${t.figure('measured', 's')} after the write pulse began (at least ${t.figure('limit', 's')} is needed), so ${writing(t)} may have gone to another address. Keep the address still until the button is released.`,
  'data-setup': (t) =>
    `the byte had stood still for ${t.figure('measured', 's')} when the write pulse ended (at least ${t.figure('limit', 's')} is needed), so ${writing(t)} is uncertain. Set the data first, then press.`,
  'data-hold': (t) =>
    `the byte moved ${t.number('measured') > 0 ? `${t.figure('measured', 's')} after the write pulse ended` : 'while the write pulse was ending'} (it must stand still for ${t.figure('limit', 's')} after it), so ${writing(t)} is uncertain. Keep the data still until the button is released.`,
  'output-enable-setup': (t) =>
    `/OE had been high for ${t.figure('measured', 's')} when the write pulse began (at least ${t.figure('limit', 's')} is needed), so ${writing(t)} may not have been stored. Set /OE high first, then press.`,
  'output-enable-hold': (t) =>
    `/OE left its high level ${t.figure('measured', 's')} after the write pulse ended (it must stay high for ${t.figure('limit', 's')} after it), so ${writing(t)} may not have been stored. Keep /OE high until the button is released.`,
};

const stood = (t: Telling): string =>
  t.number('measured') >= 0
    ? `had stood still for ${t.figure('measured', 's')} when the write pulse began`
    : 'moved while the write pulse was beginning';
