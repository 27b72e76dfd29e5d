/** A margin in words: what, the figure, the limit, and the part that matters most. */
import type { Plan } from '../../shared/plan.ts';
import { capital, noun, type Sentence, sentenceOf, specimen, withNames } from '../sentence/wording.ts';
import type { Margin } from '../tolerance/margin-evaluation.ts';
import { siFormat } from '../units/quantity.ts';

/** Whether it holds is in `m.holds`. Nouns of things on `plan` can be pointed at. */
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
      : ` ${m.failing === 0 ? `None of ${m.runs} random builds fails.` : `${Math.round(m.failing * (m.runs ?? 0))} of ${m.runs} random builds fail.`}`;
  return [
    capital(first),
    ...rest,
    ...sentenceOf`: ${about.figure} ${worst} ${END[m.method]} (limit: ${about.limit} ${limit}; nominal: ${siFormat(m.nominal, m.unit)}).`,
    ...(m.dominant
      ? sentenceOf` The largest contribution is ${specimenOf(m.dominant, plan)}: ${Math.round(100 * m.dominant.share)} %.`
      : []),
    ...(failing === '' ? [] : [failing]),
    ...(m.bent ? [' It is too nonlinear for root-sum-square: use worst or random.'] : []),
    ...(m.turning.length > 0
      ? [` It is not monotonic within the tolerance of ${m.turning.join(', ')}, so a value in between may be worse.`]
      : []),
  ];
}

const END: Readonly<Record<Margin['method'], string>> = {
  worst: 'in the worst case',
  rss: 'by root-sum-square',
  random: 'in the worst random build',
};

const WORDS: Readonly<Record<Margin['what'], { readonly figure: string; readonly limit: string }>> = {
  'pulse-width-guaranteed': { figure: 'guaranteed pulse width', limit: 'at least' },
  'pulse-width-maximum': { figure: 'maximum pulse width', limit: 'at most' },
  'level-low': { figure: 'low level', limit: 'guaranteed low up to' },
  'level-high': { figure: 'high level', limit: 'guaranteed high from' },
  'led-lit': { figure: 'current', limit: 'looks lit from' },
  'led-current': { figure: 'current', limit: 'at most' },
  'pin-current': { figure: 'pin current', limit: 'at most' },
  'package-current': { figure: 'current of all outputs together', limit: 'at most' },
  'supply-dip': { figure: 'supply dip', limit: 'at most' },
};

const specimenOf = ({ part, figure, value, unit }: NonNullable<Margin['dominant']>, plan: Plan): Sentence =>
  withNames(specimen({ kind: 'part', id: part }, figure, value, unit), plan);
