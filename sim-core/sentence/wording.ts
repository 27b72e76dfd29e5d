/** Sentences whose nouns can be clicked: references to things on the bench, their nouns, figures with their units, and the template that joins them. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { nameOfPole } from '../../shared/pole-names.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import { siFormat } from '../units/quantity.ts';
import { capitalised } from '../units/text-list.ts';

/** How anything on the bench is pointed at. `id`: 'U1', 'U1.20' (pin by number), 'S1.3' (pole, from 1), 'W7', 'a12', 'LED3' or 'DS1.a' (LED), 'B1'. */
export interface Ref {
  readonly kind: 'part' | 'pin' | 'pole' | 'wire' | 'point' | 'led' | 'board';
  readonly id: string;
}

/** A piece of a sentence: plain text, or the name of a thing on the bench. */
export type Word = string | { readonly text: string; readonly ref: Ref };
/** Text and references in order: a reference can be clicked. */
export type Sentence = readonly Word[];

/** The sentence without its links. */
export const plain = (s: Sentence): string => s.map((w) => (typeof w === 'string' ? w : w.text)).join('');

/** Text with words in it: say`LED ${noun} is dark.` Sentences within a sentence are taken apart. */
export function sentenceOf(text: TemplateStringsArray, ...words: readonly (Word | Sentence | number)[]): Sentence {
  const all: Word[] = [];
  for (const [i, piece] of text.entries()) {
    if (piece !== '') all.push(piece);
    const word = words[i];
    if (typeof word === 'number') all.push(String(word));
    else if (typeof word === 'string') all.push(...(word === '' ? [] : [word]));
    else if (word && 'ref' in word) all.push(word);
    else if (word) all.push(...word);
  }
  return all;
}

const partOf = (plan: Plan, id: string): PlanPart | undefined => plan.parts.find((p) => p.id === id);

/** The first letter as a sentence begins. */
export const capital = (w: Word): Word => (typeof w === 'string' ? capitalised(w) : { ...w, text: capitalised(w.text) });

/** The thing's name, as it stands within a sentence. */
export function noun(ref: Ref, plan: Plan): Word {
  return { text: textOf(ref, plan), ref };
}

function textOf({ kind, id }: Ref, plan: Plan): string {
  const [first = id, rest] = splitAtDot(id);
  const part = partOf(plan, first);
  const label = part?.label ? ` (${part.label})` : '';
  switch (kind) {
    case 'led':
      return rest === undefined ? `${ledText(id)}${label}` : `${ledWithin(rest)} of ${first}${label}`;
    case 'pin':
      return part && rest !== undefined ? pinText(part, rest) : id;
    case 'pole':
      return rest === undefined ? id : poleText(part, first, Number(rest), label);
    case 'part':
      return part ? `${called(part)}${label}` : id;
    case 'wire':
      return `wire ${id}`;
    case 'board':
      return `board ${id}`;
    case 'point':
      return id;
  }
}

/** "switch hot (S1 pole 1)"; without a name "pole 1 of S1 (inputs)". pole: from 1. */
function poleText(part: PlanPart | undefined, id: string, pole: number, label: string): string {
  const name = nameOfPole(part, pole - 1);
  return name === undefined ? `pole ${pole} of ${id}${label}` : `switch ${name} (${id} pole ${pole})`;
}

/** "LED4", and "LED green" where an id does not say so itself. */
export const ledText = (id: string): string => (/^LED/i.test(id) ? id : `LED ${id}`);

/** One of several LEDs in a part: "LED 3" of a bar, "segment a" of a digit. */
export const ledWithin = (name: string): string => `${/^\d+$/.test(name) ? 'LED' : 'segment'} ${name}`;

/** The id's first dot: 'PS1.+', 'U1.20', 'DS1.a'. */
function splitAtDot(id: string): readonly [string, string | undefined] {
  const dot = id.indexOf('.');
  return dot < 0 ? [id, undefined] : [id.slice(0, dot), id.slice(dot + 1)];
}

function called(part: PlanPart): string {
  const word = calling(part);
  return word === 'LED' ? ledText(part.id) : `${word} ${part.id}`;
}

/** What one says of a kind of part before its id: its title up to the first comma, or the bench's own word for it. */
function calling(part: PlanPart): string {
  const kind = partKind(part.kind);
  if (!kind) return 'part';
  if (kind.group === 'memory' || kind.group === 'supply') return kind.group;
  const params = readParams(kind, part);
  if (kind.group === 'led' && params.ok && kind.footprint(params.value).shape === 'two-leg') return 'LED';
  const [title = ''] = kind.title.split(',');
  return /^[A-Z][a-z]/.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;
}

function pinText(part: PlanPart, pin: string): string {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  const pins = kind && params?.ok ? kind.pins(params.value) : [];
  const name = pins.find((p) => p.pin === pin)?.name ?? pin;
  if (!/^\d+$/.test(pin)) return `the ${name} terminal of ${part.id}`;
  if (name === pin) return `${part.id} ${pins.length > 2 ? 'pin' : 'leg'} ${pin}`;
  return pins.length > 2 ? `${part.id} pin ${pin} (${name})` : `the ${name} of ${part.id}`;
}

/** A rail as it prints, with a minus that is as wide as the plus. */
export const railName = (rail: string): string => (rail.startsWith('+') ? rail : `−${rail.slice(1)}`);

/** Figures with their units, as sentences print them: "31 mA", "4.7 kΩ". */
export const inAmps = (amps: number): string => siFormat(amps, 'A');
export const inOhms = (ohms: number): string => siFormat(ohms, 'Ω');
export const inFarads = (farads: number): string => siFormat(farads, 'F');
export const inSeconds = (seconds: number): string => siFormat(seconds, 's');
export const inWatts = (watts: number): string => siFormat(watts, 'W');

/** Tenths of a volt as data sheets print them: 0.8 V, not 800 mV. */
export const inVolts = (volts: number): string =>
  Math.abs(volts) >= 0.1 && Math.abs(volts) < 1 ? `${String(Number(volts.toPrecision(3))).replace('-', '−')} V` : siFormat(volts, 'V');

/** "4.5 to 5.5 V" */
export const voltRange = (least: number, most: number): string => `${least} to ${siFormat(most, 'V')}`;

/** "1.5 times"; never less than 1.1 times. */
export const times = (factor: number): string => `${siFormat(Math.max(factor, 1.1), '', 2).trim()} times`;

/** One specimen of a part, by the figure in which it differs: "resistor R3 at 9.5 kΩ". `figure`: as a part's tolerances name it; `value` in `unit`, or 0 guaranteed and 1 typical for 'drive', 0 typical and 1 most for 'leakage' */
export function specimen(part: Ref, figure: string, value: number, unit: string): Wording {
  if (figure === 'drive') return value < 0.5 ? say`${part} at its guaranteed output drive` : say`${part} at its typical output drive`;
  if (figure === 'leakage') return value > 0.5 ? say`${part} at its highest leakage` : say`${part} at its typical leakage`;
  if (figure === 'forward') return say`${part} with a forward voltage of ${siFormat(value, unit)} at 10 mA`;
  return say`${part} at ${siFormat(value, unit)}`;
}

/** A pin of a chip that the sentence has named already: "its pin 12 (GND)". */
interface OwnPin {
  readonly its: Ref;
}
type Piece = string | Ref | OwnPin;
/** A sentence before its things have names: text and references in order, as rules and fixes write them. */
export type Wording = readonly Piece[];

/** Text with references in it: say`${led} is dim.` A wording within a wording is taken apart. */
export function say(text: TemplateStringsArray, ...words: readonly (Piece | Wording | number)[]): Wording {
  return text.flatMap((piece, i): Wording => {
    const word = words[i] ?? '';
    return [piece, ...(typeof word === 'number' ? [String(word)] : isWording(word) ? word : [word])].filter((w) => w !== '');
  });
}

const isWording = (word: Piece | Wording): word is Wording => Array.isArray(word);

export const its = (pin: Ref): OwnPin => ({ its: pin });

/** "A", "A and B", "A, B and C"; or with "or". */
export const listed = (words: readonly Piece[], last: 'and' | 'or' = 'and'): Wording =>
  words.flatMap((w, i): Wording => (i === 0 ? [w] : [i === words.length - 1 ? ` ${last} ` : ', ', w]));

/** Every reference under its name on this bench. */
export const withNames = (wording: Wording, plan: Plan): Sentence =>
  wording.map((w): Word => (typeof w === 'string' ? w : 'its' in w ? ownPin(noun(w.its, plan)) : noun(w, plan)));

/** "U1 pin 12 (GND)" → "its pin 12 (GND)"; "the + terminal of PS1" → "its + terminal" */
const ownPin = (w: Word): Word =>
  typeof w === 'string' ? w : { ...w, text: `its ${w.text.replace(/^\w+ (?=pin |leg )|^the | of \w+$/g, '')}` };
