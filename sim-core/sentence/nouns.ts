/** What things on the bench are called in sentences, and how a sentence is put together: "LED4 (vent)", "U1 pin 13 (D3)", "wire W7". */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { nameOfPole } from '../../shared/pole-names.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import type { Ref } from '../sentence/ref.ts';
import { capitalised } from '../units/text-list.ts';
import type { Sentence, Word } from './sentence.ts';

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
const ledText = (id: string): string => (/^LED/i.test(id) ? id : `LED ${id}`);

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
