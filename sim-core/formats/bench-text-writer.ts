/**
 * A plan as text, whole and in the plan's own order: what has not changed is written as before, so that two versions compare line by line. Columns
 * stand at fixed places for the same reason; a longer word pushes only its own line.
 */
import type { Plan, PlanBoard, PlanCells, PlanMeter, PlanPart, PlanWanted, PlanWire } from '../../shared/plan.ts';
import { exactQuantity } from '../units/exact-quantity.ts';
import { hex } from '../units/hex.ts';
import { parseQuantity } from '../units/quantity.ts';
import { FIRST_WORDS, SECOND_WORDS } from './bench-lines.ts';
import { writeRest, writeWord } from './bench-words.ts';
import { NO_BYTES } from './line-contents.ts';
import { POINT } from './line-part.ts';
import { writeProof } from './line-proof.ts';
import { NONE } from './line-wanted.ts';

/** Widths of the columns for ids, kinds, places, and what a line of the table is. */
const [ID, KIND, PLACE, TABLE] = [5, 13, 7, 13];
/** Figures of bytes, and rows of the table, on one line. */
const BYTES_A_LINE = 64;
const ROWS_A_LINE = 16;

/** A plan in the text notation; reading it back gives the same plan. */
export function writeBenchText(plan: Plan): string {
  const sections = [
    [
      'bench-text 1',
      `title ${writeRest(plan.title)}`,
      ...(plan.wiring ? [`wiring ${plan.wiring}`] : []),
      ...(plan.outputs ? [`outputs ${plan.outputs}`] : []),
    ],
    plan.boards.map(board),
    plan.parts.map(part),
    plan.wires.map(wire),
    Object.entries(plan.memories).flatMap(([id, image]) => contentLines(id, ['memory'], image, 'erased')),
    plan.cells && Object.keys(plan.cells).length === 0
      ? [`cells ${NO_BYTES}`]
      : Object.entries(plan.cells ?? {}).flatMap(([id, state]) => cells(id, state)),
    Object.entries(plan.switches).map(([id, poles]) =>
      columns([idWord(id), ID], ['hands', KIND], [poles.map((p) => (p ? '1' : '0')).join('') || 'none', 0]),
    ),
    plan.meters.map(meter),
    plan.wanted ? wanted(plan.wanted) : [],
    plan.proof ? [writeProof(plan.proof)] : [],
    plan.notes.map((n) => `note ${writeRest(n)}`),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

/** Words in columns; the last one and whatever is empty take no room behind the line. */
const columns = (...cells: ReadonlyArray<readonly [word: string, width: number]>): string =>
  cells
    .filter(([word]) => word !== '')
    .map(([word, width]) => word.padEnd(width))
    .join(' ')
    .trimEnd();

const idWord = (id: string): string => (FIRST_WORDS.includes(id) ? JSON.stringify(id) : id);
const spot = ([x, y]: readonly [number, number]): string => `@${number(x)},${number(y)}`;
const number = (n: number): string => (Object.is(n, -0) ? '-0' : String(n));

const board = ({ id, kind, spot: at, splitRails }: PlanBoard): string =>
  columns([idWord(id), ID], [kind, KIND], [spot(at), PLACE], [splitRails ? 'split' : '', 0]);

function part({ id, kind, at, to, rotated, spot: stands, params, label, poleNames, damaged }: PlanPart): string {
  const figures = params && Object.entries(params).map(([name, value]) => `${name}=${figure(value)}`);
  const rest = [
    rotated ? 'turned' : '',
    stands ? spot(stands) : '',
    ...(figures?.length === 0 ? ['plain'] : (figures ?? [])),
    label === undefined ? '' : JSON.stringify(label),
    poleNames ? `names:${JSON.stringify(poleNames.join('"'))}` : '',
    damaged
      ? `damaged:${damaged.by}:${exactQuantity(damaged.measured)}/${exactQuantity(damaged.limit)}${damaged.pins ? `:${damaged.pins.join(',')}` : ''}`
      : '',
  ];
  const plainKind = /^[a-z][a-z0-9-]*$/.test(kind) && !SECOND_WORDS.includes(kind);
  // the first bare place is the first hole: a second one alone says so
  const second = to === undefined ? '' : place('to', to, at !== undefined);
  return columns(
    [idWord(id), ID],
    [plainKind ? kind : JSON.stringify(kind), KIND],
    [at === undefined ? '' : place('at', at, true), PLACE],
    [second, PLACE],
    [rest.filter((w) => w !== '').join(' '), 0],
  );
}

const place = (which: 'at' | 'to', point: string, bare: boolean): string =>
  bare && POINT.test(point) ? point : `${which}:${JSON.stringify(point)}`;

function figure(value: number | string | boolean): string {
  if (typeof value === 'number') return exactQuantity(value);
  if (typeof value === 'boolean') return String(value);
  const bare = /^[A-Za-z][\w.-]*$/.test(value) && value !== 'true' && value !== 'false' && !parseQuantity(value).ok;
  return bare ? value : JSON.stringify(value);
}

const wire = ({ id, from, to, colour }: PlanWire): string =>
  columns([idWord(id), ID], ['wire', ID], [writeWord(from), PLACE], [writeWord(to), PLACE], [colour, 0]);

/** Contents by address, a long piece on several lines. */
function contentLines(id: string, what: readonly string[], contents: Readonly<Record<string, string>>, empty: string): string[] {
  const line = (text: string) => columns([idWord(id), ID], [what[0] ?? '', ID], [what[1] ?? '', ID], [text, 0]);
  const entries = Object.entries(contents);
  if (entries.length === 0) return [line(empty)];
  return entries.flatMap(([address, bytes]) =>
    pieces(bytes, BYTES_A_LINE).map((piece, i) => line(i === 0 ? `${address}=${piece}` : `${' '.repeat(address.length)}+${piece}`)),
  );
}

function cells(id: string, { uncertain, charge, writes }: PlanCells): string[] {
  const lines = [
    ...(uncertain ? contentLines(id, ['cells', 'uncertain'], uncertain, NO_BYTES) : []),
    ...(charge ? contentLines(id, ['cells', 'charge'], charge, NO_BYTES) : []),
    ...(writes
      ? [
          [idWord(id).padEnd(ID), 'cells writes', ...Object.entries(writes).map(([a, [times, count]]) => `${a}=${times}x${count}`)].join(
            ' ',
          ),
        ]
      : []),
  ];
  return lines.length > 0 ? lines : [columns([idWord(id), ID], ['cells', ID], [NO_BYTES, 0])];
}

const pieces = (text: string, length: number): string[] =>
  Array.from({ length: Math.ceil(text.length / length) }, (_, i) => text.slice(i * length, (i + 1) * length));

function meter(m: PlanMeter): string {
  const against = m.measures === 'volts' && m.against !== undefined ? m.against : undefined;
  return columns(
    [idWord(m.id), ID],
    ['meter', ID],
    [m.measures === 'amps' ? `through ${m.leg}` : `${m.measures === 'level' ? 'level ' : ''}${place('at', m.at, true)}`, PLACE],
    [against === undefined ? '' : POINT.test(against) ? `against ${against}` : `against:${JSON.stringify(against)}`, 0],
    [m.tag ? spot(m.tag) : '', 0],
    [m.label === undefined ? '' : JSON.stringify(m.label), 0],
  );
}

const lineNamed = (what: 'input' | 'output', { name, pin, activeLow, led }: PlanWanted['outputs'][number]): string =>
  columns(
    [`wanted ${what}`, TABLE],
    [writeWord(name), KIND],
    [pin, PLACE],
    [activeLow ? 'active-low' : '', 0],
    [led === undefined ? '' : `led=${led}`, 0],
  );

/** A rule or an expression; one that is called as an empty list is, is put in quotes. */
const tableText = (what: 'rule' | 'logic', text: string): string =>
  columns([`wanted ${what}`, TABLE], [text === NONE ? JSON.stringify(text) : writeRest(text), 0]);

function wanted({ inputs, outputs, rules, rows, dontCare: free, expressions }: PlanWanted): string[] {
  const lines = [
    ...inputs.map((l) => lineNamed('input', l)),
    ...outputs.map((l) => lineNamed('output', l)),
    ...rules.map((r) => tableText('rule', r)),
    ...(expressions?.length === 0 ? [columns(['wanted logic', TABLE], [NONE, 0])] : (expressions ?? []).map((x) => tableText('logic', x))),
    ...rowLines('rows', rows),
    ...(free?.length === 0 ? [columns(['wanted free', TABLE], [NONE, 0])] : rowLines('free', free ?? [])),
  ];
  return lines.length > 0 ? lines : ['wanted nothing'];
}

function rowLines(what: 'rows' | 'free', rows: readonly number[]): string[] {
  const digits = String(rows.length).length;
  const figures = rows.some((r) => r > 0xff) ? 4 : 2;
  return Array.from({ length: Math.ceil(rows.length / ROWS_A_LINE) }, (_, i) => {
    const these = rows.slice(i * ROWS_A_LINE, (i + 1) * ROWS_A_LINE).map((r) => hex(r, figures));
    return columns([`wanted ${what}`, TABLE], [`${String(i * ROWS_A_LINE).padStart(digits)}: ${these.join(' ')}`, 0]);
  });
}
