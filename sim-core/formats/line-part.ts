/** The line of a part: its kind, where it is, its figures, its label, what killed it. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanPart } from '../../shared/plan.ts';
import { parseQuantity } from '../units/quantity.ts';
import type { TextToken } from './bench-words.ts';

/** A tie point or a terminal that can stand bare; any other place is written `at:"…"` or `to:"…"`. */
export const POINT = /^(?:[A-Za-z]\w*:)?[+-]?[a-j]\d+$|^[A-Za-z]\w*\.[^\s"]+$/;
const FIGURE = /^([a-z][A-Za-z]{0,23})=(.*)$/s;
const CAUSES = ['current', 'reverse', 'power', 'supply', 'voltage', 'output', 'package', 'input'] as const;
type Draft = { -readonly [K in keyof PlanPart]?: PlanPart[K] };

export function readPart(id: string, kind: TextToken, words: readonly TextToken[]): Outcome<PlanPart> {
  const params = new Map<string, number | string | boolean>();
  const draft: Draft = {};
  let figures = false;
  for (const word of words) {
    const { bare, quoted, text } = word;
    const figure = FIGURE.exec(bare);
    if (bare === '' && quoted !== undefined) draft.label = quoted;
    else if (figure) {
      const name = figure[1] ?? '';
      if (params.has(name)) return failed('', `${name} of ${id} is given twice. Take one of the two out.`);
      if (figure[2] === '' && quoted === undefined)
        return failed('', `there is nothing after ${name}=. Write a value, such as ${name}=4k7.`);
      params.set(name, quoted ?? readValue(figure[2] ?? ''));
      figures = true;
    } else if (bare.startsWith('@')) {
      const spot = readSpot(text);
      if (!spot.ok) return spot;
      draft.spot = spot.value;
    } else if (quoted !== undefined && (bare === 'at:' || bare === 'to:')) draft[bare === 'at:' ? 'at' : 'to'] = quoted;
    else if (text === 'turned') draft.rotated = true;
    else if (quoted !== undefined && bare === 'names:') draft.poleNames = quoted.split('"');
    else if (text === 'plain') figures = true;
    else if (bare.startsWith('damaged:') && !POINT.test(text)) {
      const damaged = readDamage(text);
      if (!damaged.ok) return damaged;
      draft.damaged = damaged.value;
    } else if (quoted === undefined && POINT.test(bare) && (draft.at === undefined || draft.to === undefined))
      draft[draft.at === undefined ? 'at' : 'to'] = bare;
    else return failed('', unknownWord(id, word, draft));
  }
  return done({
    id,
    kind: kind.bare === '' ? (kind.quoted ?? '') : kind.text,
    ...inOrder(draft, figures ? Object.fromEntries(params) : undefined),
  });
}

function unknownWord(id: string, { bare, text }: TextToken, draft: Draft): string {
  if (POINT.test(bare)) return `"${text}" is a third place for ${id}, which stands at ${draft.at} and ${draft.to}. Take one of them out.`;
  return `"${text}" is neither a tie point such as a12, nor a figure such as ohms=330, nor a place beside the boards such as @0,-10, nor "turned", nor a label in quotes.`;
}

/** In the order of the plan's schema, so that a plan written and read is the same to the letter. */
const inOrder = (
  { at, to, rotated, spot, label, poleNames, damaged }: Draft,
  params: PlanPart['params'],
): Omit<PlanPart, 'id' | 'kind'> => ({
  ...(at === undefined ? {} : { at }),
  ...(to === undefined ? {} : { to }),
  ...(rotated === undefined ? {} : { rotated }),
  ...(spot === undefined ? {} : { spot }),
  ...(params === undefined ? {} : { params }),
  ...(label === undefined ? {} : { label }),
  ...(poleNames === undefined ? {} : { poleNames }),
  ...(damaged === undefined ? {} : { damaged }),
});

/** A bare value is a quantity if it can be one, then true or false, else a word. */
function readValue(text: string): number | string | boolean {
  if (text === 'true' || text === 'false') return text === 'true';
  const quantity = parseQuantity(text);
  return quantity.ok ? quantity.value : text;
}

/** '@26,-22.4' */
export function readSpot(text: string): Outcome<[number, number]> {
  const m = /^@([+-]?[\d.e+-]+),([+-]?[\d.e+-]+)$/.exec(text);
  const spot = [Number(m?.[1] ?? 'none'), Number(m?.[2] ?? 'none')] as [number, number];
  return spot.every(Number.isFinite)
    ? done(spot)
    : failed('', `"${text}" is no place: write pitches to the right and down, with a comma and no space, such as @26,-22.4.`);
}

function readDamage(text: string): Outcome<NonNullable<PlanPart['damaged']>> {
  const [, cause, measured = '', limit = '', pins] = /^damaged:([a-z]+):([^/]+)\/([^/:]+)(?::(\S+))?$/.exec(text) ?? [];
  const by = CAUSES.find((c) => c === cause);
  const [a, b] = [parseQuantity(measured), parseQuantity(limit)];
  if (!by || !a.ok || !b.ok)
    return failed(
      '',
      `"${text}" does not say what killed the part: write ${CAUSES.join(', ')}, then measured and limit, such as damaged:current:280m/30m.`,
    );
  return done({ by, measured: a.value, limit: b.value, ...(pins === undefined ? {} : { pins: pins.split(',') }) });
}
