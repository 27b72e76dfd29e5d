/** Lines of what is on a bench: its title, boards, parts, wires, switches, meters and notes. */
import { done, failed } from '../../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanMeter, PlanPart, PlanWire } from '../../../shared/plan.ts';
import { shortened } from '../../../shared/quoted.ts';
import { leadingParam, partKind } from '../../parts/catalogue.ts';
import { partLookup } from '../../parts/footprint-index.ts';
import { exactQuantity } from '../../units/exact-quantity.ts';
import { parseQuantity } from '../../units/quantity.ts';
import {
  type Codec,
  choice,
  EMPTY_WORD,
  FIGURE,
  FLAG,
  following,
  form,
  needed,
  ONE_WORD,
  pairs,
  pattern,
  QUOTED,
  SPOT,
  TEXTS,
  value,
  WORD_LIST,
} from './clauses.ts';
import { entries, type LineKind, lineKind, texts } from './line-kind.ts';

/** Boards without a place of their own stand below each other, this many pitches apart. */
const BOARD_STEP = 21;

/** The version of the notation that this program writes, and the newest that it reads. */
const NEWEST = 2;

const version = lineKind({
  words: 'lampwright-text',
  example: `lampwright-text ${NEWEST}`,
  fields: { version: needed(value(ONE_WORD)) },
  path: () => 'format',
  put({ version }) {
    if (Number(version) === NEWEST) return undefined;
    const says =
      Number(version) > NEWEST
        ? `the text is version ${shortened(version)}, newer than the version ${NEWEST} that this Lampwright knows. Open it with a newer Lampwright.`
        : `"${shortened(version)}" is not a version of the text notation. Write lampwright-text ${NEWEST}; a text of version 1 begins with bench-text 1.`;
    return failed('text/unknown-version', '', says);
  },
  lines: () => [{ said: { version: String(NEWEST) } }],
});

const title = lineKind({
  words: 'title',
  example: 'title Greenhouse guard',
  has: 'text',
  fields: { texts: needed(value(TEXTS)) },
  once: true,
  path: () => 'title',
  put({ texts: [text = EMPTY_WORD] }, { plan }) {
    plan.title = text;
  },
  lines: ({ title }) => [{ said: { texts: [title] } }],
});

/** A choice of the whole bench; the usual one is not in the plan. */
const setting = <N extends 'wiring' | 'outputs'>(words: N, chosen: NonNullable<Plan[N]>, usual: string): LineKind =>
  lineKind({
    words,
    example: `${words} ${chosen}`,
    fields: { chosen: needed(value(choice<string>(chosen, usual))) },
    once: true,
    path: () => words,
    put(said, { plan }) {
      plan[words] = said.chosen === chosen ? chosen : undefined;
      return undefined;
    },
    lines: (plan) => (plan[words] ? [{ said: { chosen: plan[words] } }] : []),
  });

export const HEAD_LINES: readonly LineKind[] = [
  version,
  title,
  setting('wiring', 'real', 'ideal'),
  setting('outputs', 'guaranteed', 'typical'),
];

export const BOARD_LINE = lineKind({
  words: 'board',
  example: 'board-63 B1 at @0,21 split rails',
  has: 'id',
  fields: {
    spot: following('@', SPOT),
    splitRails: following(
      'split',
      form(
        'rails',
        (text) => text === 'rails' || undefined,
        () => 'rails',
      ),
    ),
  },
  path: ({ boards }) => `boards/${boards.length}`,
  put({ spot, splitRails = false }, { plan: { boards } }, id, kind) {
    boards.push({ id, kind: kind as PlanBoard['kind'], spot: spot ?? [0, boards.length * BOARD_STEP], splitRails });
  },
  lines: ({ boards }) =>
    boards.map(({ id, kind, spot, splitRails }) => ({ kind, id, said: { spot, splitRails: splitRails || undefined } })),
});

const CAUSES = ['current', 'reverse', 'power', 'supply', 'voltage', 'output', 'package', 'input'] as const;
/** `by current 280m over 30m pins D0 D1` */
const DAMAGE: Codec<NonNullable<PlanPart['damaged']>> = {
  ...WORD_LIST,
  least: 5,
  read(words) {
    const [first, cause, measured = '', over, limit = '', and, ...pins] = words.map((w) => w.text);
    const by = CAUSES.find((c) => c === cause);
    const [a, b] = [parseQuantity(measured), parseQuantity(limit)];
    if (first === 'by' && by && over === 'over' && a.ok && b.ok && (and === undefined || (and === 'pins' && pins.length > 0)))
      return done({ by, measured: a.value, limit: b.value, ...(and && { pins }) });
    const says = `"${shortened(words.map((w) => w.text).join(' '))}" does not say what damaged the part: by ${CAUSES.join(', ')}, measured over limit, such as damaged by current 280m over 30m`;
    return failed('text/bad-value', '', says);
  },
  write: ({ by, measured, limit, pins }, word) =>
    `by ${by} ${exactQuantity(measured)} over ${exactQuantity(limit)}${pins ? ` pins ${pins.map(word).join(' ')}` : ''}`,
};

const RESISTOR = 'resistor R1 4k7 from a30 to -a25';

/** A line for a part of this kind: its usual value, and a place that suits its legs. */
function partExample(id: string): string {
  const kind = partKind(id);
  if (!kind) return RESISTOR;
  const usual = Object.fromEntries(kind.params.map(({ name, fallback }) => [name, fallback]));
  const { shape } = kind.footprint(usual);
  const lead = usual[leadingParam(id) ?? ''];
  const place = shape === 'two-leg' ? 'from a30 to a34' : shape === 'off-board' ? 'at @0,-10' : 'at e12';
  return [id, `${partLookup.lettersOf(id)}1`, ...(lead === undefined ? [] : [FIGURE.write(lead, String)]), place].join(' ');
}

export const PART_LINE = lineKind({
  words: 'part',
  example: RESISTOR,
  exampleOf: partExample,
  has: 'id',
  fields: {
    lead: value(FIGURE),
    at: ONE_WORD,
    from: ONE_WORD,
    to: ONE_WORD,
    spot: following('@', SPOT),
    rotated: FLAG,
    figures: following('with', pairs(FIGURE)),
    poleNames: following('named', WORD_LIST),
    label: following('called', QUOTED),
    damaged: DAMAGE,
  },
  path: ({ parts }) => `parts/${parts.length}`,
  put({ lead, from, figures, ...said }, { plan }, id, kind) {
    const name = leadingParam(kind);
    if (lead !== undefined && name === undefined) {
      const [word, first] = [FIGURE.write(lead, String), partKind(kind)?.params[0]?.name];
      const cure = first === undefined ? 'Take it out' : `Write: with ${first} ${shortened(word)}`;
      return failed(
        'text/unexpected-word',
        '',
        `"${shortened(word)}" does not belong there: a ${shortened(kind)} has no value that says what it is. ${cure}.`,
      );
    }
    if (from !== undefined && said.at !== undefined)
      return failed('text/given-twice', '', `${id} is both at ${shortened(said.at)} and from ${shortened(from)}. Remove one of the two.`);
    if (lead !== undefined && name !== undefined && name in (figures ?? {}))
      return failed('text/given-twice', '', `${id} has two values for ${name}. Remove one of the two.`);
    const params = lead !== undefined && name !== undefined ? { [name]: lead, ...figures } : figures;
    plan.parts.push({ id, kind, at: from, ...said, params });
    return undefined;
  },
  lines: ({ parts }) =>
    parts.map(({ id, kind, at, params, ...part }) => {
      const [[name, lead] = [], ...rest] = Object.entries(params ?? {});
      const alone = name !== undefined && name === leadingParam(kind);
      const figures = alone ? rest.length > 0 && Object.fromEntries(rest) : params;
      return {
        kind: partKind(kind) ? kind : JSON.stringify(kind),
        id,
        said: { ...part, [part.to === undefined ? 'at' : 'from']: at, ...(alone && { lead }), ...(figures && { figures }) },
      };
    }),
});

export const WIRE_LINE = entries<PlanWire>(
  {
    words: 'wire',
    example: 'wire W1 red from a3 to b17',
    has: 'id',
    fields: {
      colour: value(pattern(/^[a-z]{3,10}$/, 'a colour of three to ten small letters such as red')),
      from: needed(ONE_WORD),
      to: needed(ONE_WORD),
    },
  },
  'wires',
  ({ wires }) => wires,
  { colour: 'green' },
);

export const SWITCH_LINE = lineKind({
  words: 'switch',
  example: 'switch S1 set 10110',
  has: 'id',
  fields: {
    set: needed(
      form(
        'how a switch is set, one 0 or 1 a pole',
        (text) => (text === EMPTY_WORD ? [] : /^[01]+$/.test(text) ? [...text].map((c) => c === '1') : undefined),
        (poles) => poles.map((p) => (p ? '1' : '0')).join('') || EMPTY_WORD,
      ),
    ),
  },
  once: true,
  path: (_, id) => `switches/${id}`,
  put({ set }, { plan }, id) {
    plan.switches[id] = set;
  },
  lines: ({ switches }) => Object.entries(switches).map(([id, set]) => ({ id, said: { set } })),
});

export const METER_LINE = lineKind({
  words: 'meter',
  example: 'meter M1 volts at a12 against b3',
  has: 'id',
  fields: {
    measures: value(choice('volts', 'amps', 'level')),
    at: ONE_WORD,
    against: ONE_WORD,
    leg: following('through', pattern(/^[A-Za-z0-9_]+\.[A-Za-z0-9+/-]+$/, 'a leg such as LED3.1')),
    label: following('called', QUOTED),
    tag: SPOT,
  },
  path: ({ meters }) => `meters/${meters.length}`,
  put({ measures = 'volts', ...said }, { plan }, id) {
    const takes = { volts: ['at', 'against'], amps: ['leg'], level: ['at'] } as const;
    const [needs, ...more]: readonly string[] = takes[measures];
    const over = (['at', 'against', 'leg'] as const).find((name) => said[name] !== undefined && name !== needs && !more.includes(name));
    if (over)
      return failed(
        'text/unexpected-word',
        '',
        `"${shortened(said[over] ?? '')}" does not belong there: meter ${id} measures ${measures}.`,
      );
    if ((measures === 'amps' ? said.leg : said.at) === undefined)
      return failed('text/missing-word', '', `meter ${id} needs ${measures === 'amps' ? 'a leg: through LED3.1' : 'a place: at a12'}.`);
    plan.meters.push({ id, measures, ...said } as PlanMeter);
    return undefined;
  },
  lines: ({ meters }) => meters.map(({ id, ...said }) => ({ id, said })),
});

export const NOTE_LINE = texts('note', 'note Switch off first.', 'notes', ({ notes }) => notes);
