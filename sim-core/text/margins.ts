/** A margin in words: what, the figure, the limit, and the part that matters most. And how the figure of one specimen is said. */
import type { Plan } from '../../shared/plan.ts';
import { capital, noun, sentenceOf } from '../sentence/nouns.ts';
import type { Sentence } from '../sentence/sentence.ts';
import type { Margin } from '../tolerance/margin-evaluation.ts';
import { siFormat } from '../units/quantity.ts';

/** Whether it holds is not said: that is `m.holds`. Nouns that stand on `plan` can be pointed at. */
export function sayMargin(m: Margin, plan: Plan): Sentence {
  const place = noun(m.at, plan);
  const button = m.button === undefined ? '' : noun({ kind: 'part', id: m.button }, plan);
  const limit = siFormat(m.limit, m.unit);
  const worst = siFormat(m.worst, m.unit);
  const about = WORDS[m.what];
  const [first = '', ...rest] = sentenceOf`${m.button === undefined ? place : sentenceOf`${place}, written by ${button}`}`;
  const failing =
    m.failing === undefined
      ? ''
      : ` ${m.failing === 0 ? `None of ${m.runs} drawn specimens fails.` : `${Math.round(m.failing * (m.runs ?? 0))} of ${m.runs} drawn specimens fail.`}`;
  return [
    capital(first),
    ...rest,
    ...sentenceOf`: ${about.figure} ${worst} ${END[m.method]} (${about.limit} ${limit}; as drawn ${siFormat(m.nominal, m.unit)}).`,
    ...(m.dominant
      ? sentenceOf` What matters most is ${sayFigure(m.dominant.part, m.dominant.figure, m.dominant.value, m.dominant.unit, plan)}: ${Math.round(100 * m.dominant.share)} %.`
      : []),
    ...(failing === '' ? [] : [failing]),
    ...(m.bent ? [' It bends too much for root-sum-square: ask for worst or random.'] : []),
    ...(m.turning.length > 0
      ? [` It turns round within the bounds of ${m.turning.join(', ')}, so a point between may be worse still.`]
      : []),
  ];
}

const END: Readonly<Record<Margin['method'], string>> = {
  worst: 'at worst',
  rss: 'by root-sum-square',
  random: 'in the worst specimen drawn',
};

const WORDS: Readonly<Record<Margin['what'], { readonly figure: string; readonly limit: string }>> = {
  'pulse-sure-low': { figure: 'the write pulse is surely low for', limit: 'at least' },
  'pulse-maybe-low': { figure: 'the write pulse may be low for', limit: 'at most' },
  'level-low': { figure: 'low is', limit: 'surely low up to' },
  'level-high': { figure: 'high is', limit: 'surely high from' },
  'led-lit': { figure: 'lit with', limit: 'looks lit from' },
  'led-current': { figure: 'takes', limit: 'at most' },
  'pin-current': { figure: 'gives or takes', limit: 'at most' },
  'package-current': { figure: 'carries for all outputs together', limit: 'at most' },
  'supply-dip': { figure: 'its supply dips by', limit: 'at most' },
};

/** "resistor R3 at 9.5 kΩ", "memory U1 giving no more than is guaranteed". */
export function sayFigure(part: string, figure: string, value: number, unit: string, plan: Plan): Sentence {
  const name = noun({ kind: 'part', id: part }, plan);
  if (figure === 'drive')
    return value < 0.5 ? sentenceOf`${name} giving no more than is guaranteed` : sentenceOf`${name} giving as much as is typical`;
  if (figure === 'forward') return sentenceOf`${name} needing ${siFormat(value, unit)} at 10 mA`;
  return sentenceOf`${name} at ${siFormat(value, unit)}`;
}
