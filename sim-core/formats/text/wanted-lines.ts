/** Lines of what a bench is meant to show: the inputs and outputs of the table, its rules, what it is computed from, its rows, and the proof of it. */
import { failed } from '../../../shared/outcome.ts';
import type { Plan, PlanProof, PlanWanted } from '../../../shared/plan.ts';
import { shortened } from '../../../shared/quoted.ts';
import { hex } from '../../units/hex.ts';
import { COUNT, EMPTY_WORD, FLAG, following, needed, ONE_WORD, pairs, pattern, QUOTED, value, WORD_LIST } from './clauses.ts';
import { entries, type LineKind, lineKind, texts } from './line-kind.ts';

const PIN = pattern(/^[A-Za-z0-9_]+\.[A-Z0-9/]+$/, 'a pin by its name, such as U1.A0');
const LED = pattern(/^[A-Za-z0-9_]+(\.[A-Za-z0-9]+)?$/, 'an LED, such as LED3 or DS1.a');
/** Rows on one line. */
const ROWS_A_LINE = 16;

/** The plan's table; `made`: an empty one, where it has none. */
function tableOf(plan: Plan, made?: true): PlanWanted {
  const table = plan.wanted ?? { inputs: [], outputs: [], rules: [], rows: [] };
  if (made) plan.wanted = table;
  return table;
}

const NAMED = { name: needed(value(ONE_WORD)), pin: needed(following('at', PIN)) } as const;

/** Hexadecimal values, one a row; a number with a colon says which row comes next, for the eye, and has to be right. */
const rows = (words: string, list: 'rows' | 'dontCare'): LineKind =>
  lineKind({
    words,
    example: `${words} 0: 8C 00 01`,
    fields: { values: needed(value({ ...WORD_LIST, write: (all: string[]) => all.join(' ') })) },
    path: () => `wanted/${list}`,
    put({ values }, { plan }) {
      const table = tableOf(plan, true);
      table[list] ??= [];
      const all = table[list];
      for (const word of values.join() === EMPTY_WORD ? [] : values) {
        const head = /^(\d+):$/.exec(word)?.[1];
        if (head !== undefined && Number(head) !== all.length)
          return failed(
            'text/wrong-row',
            '',
            `row ${shortened(head)} is announced where row ${all.length} comes. Write the rows in order, and none twice.`,
          );
        if (head === undefined && !/^[0-9A-F]{1,4}$/i.test(word))
          return failed(
            'text/bad-value',
            '',
            `"${shortened(word)}" is not a row: write the outputs as a hexadecimal number from 0 to FFFF, such as 8C.`,
          );
        if (head === undefined) all.push(Number.parseInt(word, 16));
      }
      return undefined;
    },
    lines({ wanted }) {
      const all = wanted?.[list] ?? [];
      if (all.length === 0) return wanted?.dontCare && list === 'dontCare' ? [{ said: { values: [EMPTY_WORD] } }] : [];
      const figures = all.some((r) => r > 0xff) ? 4 : 2;
      return Array.from({ length: Math.ceil(all.length / ROWS_A_LINE) }, (_, i) => {
        const at = i * ROWS_A_LINE;
        const head = `${at}:`.padStart(String(all.length).length + 1);
        return { said: { values: [head, ...all.slice(at, at + ROWS_A_LINE).map((r) => hex(r, figures))] } };
      });
    },
  });

export const WANTED_LINES: readonly LineKind[] = [
  entries<PlanWanted['inputs'][number]>(
    { words: 'wanted input', example: 'wanted input hot at U1.A0', fields: NAMED },
    'wanted/inputs',
    (plan, made) => tableOf(plan, made).inputs,
  ),
  entries<PlanWanted['outputs'][number]>(
    {
      words: 'wanted output',
      example: 'wanted output "grow light" at U1.D0 active-low on LED3',
      fields: { ...NAMED, activeLow: following('active-low', FLAG), led: following('on', LED) },
    },
    'wanted/outputs',
    (plan, made) => tableOf(plan, made).outputs,
  ),
  texts('wanted rule', 'wanted rule The vent opens when it is hot.', 'wanted/rules', (plan, made) => tableOf(plan, made).rules),
  texts(
    'wanted expression',
    'wanted expression vent = hot and not windy',
    'wanted/expressions',
    (plan, made) => {
      const table = tableOf(plan, made);
      if (made) table.expressions ??= [];
      return table.expressions;
    },
    true,
  ),
  rows('wanted rows', 'rows'),
  rows('wanted dont-care', 'dontCare'),
  lineKind({
    words: `wanted ${EMPTY_WORD}`,
    example: `wanted ${EMPTY_WORD}`,
    fields: {},
    path: () => 'wanted',
    put(_, { plan }) {
      tableOf(plan, true);
      return undefined;
    },
    lines: ({ wanted }) =>
      wanted && !wanted.dontCare && !wanted.expressions && Object.values(wanted).every((l) => l.length === 0) ? [{ said: {} }] : [],
  }),
];

export const PROOF_LINE = lineKind({
  words: 'proof',
  example: 'proof 2026-01-31 by "A. Name" rows 32 fingerprint 9f86d081884c7d65 switches S1 --, S2 1',
  fields: {
    date: needed(value(pattern(/^\d{4}-\d\d-\d\d$/, 'a date such as 2026-01-31'))),
    by: needed(QUOTED),
    rows: needed(COUNT),
    fingerprint: needed(pattern(/^[0-9a-f]{16}([0-9a-f]{48})?$/, 'a fingerprint of 16 hexadecimal figures')),
    switches: pairs(pattern(/^[01-]{1,12}$/, 'one of 0, 1 and - a pole')),
  },
  once: true,
  path: () => 'proof',
  put(said: PlanProof, { plan }) {
    plan.proof = said;
  },
  lines: ({ proof }) => (proof ? [{ said: proof }] : []),
});
