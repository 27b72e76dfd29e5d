/** Every kind of line of the text notation, in the order in which a plan is written, and how one line of a text finds its kind. */
import { didYouMean, nearestNames } from '../../../shared/misspelling.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { shortened } from '../../../shared/quoted.ts';
import { BOARDS } from '../../board/boards.ts';
import { PARTS, partKind } from '../../parts/catalogue.ts';
import { BOARD_LINE, HEAD_LINES, METER_LINE, NOTE_LINE, PART_LINE, SWITCH_LINE, WIRE_LINE } from './bench-lines.ts';
import { readClauses } from './clauses.ts';
import { CELLS_LINE, MEMORY_LINE } from './contents.ts';
import type { LineKind, PlanDraft } from './line-kind.ts';
import { MEANT_LINE, meantKind } from './meant-lines.ts';
import { PROOF_LINE, WANTED_LINES } from './wanted-lines.ts';
import { readRest, type TextToken, wordsOf } from './words.ts';

const MEANT_BOARD = meantKind(BOARD_LINE);
const MEANT_PART = meantKind(PART_LINE);
/** Lines that begin with the kind of board or part. */
const BY_PART: readonly LineKind[] = [BOARD_LINE, PART_LINE, MEANT_BOARD, MEANT_PART];

/** Kinds of lines that stand together; an empty line comes before the next. */
export const LINE_SECTIONS: readonly (readonly LineKind[])[] = [
  HEAD_LINES,
  [BOARD_LINE],
  [PART_LINE],
  [WIRE_LINE],
  [MEMORY_LINE],
  [CELLS_LINE],
  [SWITCH_LINE],
  [METER_LINE],
  WANTED_LINES,
  [PROOF_LINE],
  [MEANT_LINE, MEANT_BOARD, MEANT_PART, meantKind(WIRE_LINE)],
  [NOTE_LINE],
];

/** Kinds by what their lines begin with. Lines of boards and parts begin with the kind of board or part. */
const KINDS = new Map<string, LineKind>([
  ...LINE_SECTIONS.flat().flatMap((kind) => (BY_PART.includes(kind) ? [] : [[kind.words, kind] as const])),
  ...Object.keys(BOARDS).flatMap((id) => [[id, BOARD_LINE] as const, [`meant ${id}`, MEANT_BOARD] as const]),
]);
/** Lines of which all is one text. */
const TEXTS = [...KINDS.values()].flatMap(({ words, has }) =>
  has === 'text' ? [{ words: words.split(' '), form: new RegExp(`^\\s*${words.replace(' ', '\\s+')}(?:\\s+(.*))?$`, 's') }] : [],
);

const ID = /^[A-Za-z][A-Za-z0-9_]{0,15}$/;

/** The words of a line: all of its text as one word where the kind has it so. */
function wordsOfLine(line: string): Outcome<readonly TextToken[]> {
  for (const { words, form } of TEXTS) {
    const found = form.exec(line);
    if (!found) continue;
    const text = readRest(found[1] ?? '');
    if (!text.ok) return text;
    const begin = words.map((w) => ({ text: w, quoted: false }));
    return done(text.value.text === '' && !text.value.quoted ? begin : [...begin, text.value]);
  }
  return wordsOf(line);
}

/** The kind of a line, and how many words name it; a name in quotes is a kind of part, also one that this program does not have. */
function kindOf([first, second]: readonly TextToken[]): readonly [kind: LineKind | undefined, words: number] {
  if (first?.quoted) return [PART_LINE, 1];
  const two = KINDS.get(`${first?.text} ${second?.text}`) ?? (first?.text === 'meant' && isPart(second) ? MEANT_PART : undefined);
  return two ? [two, 2] : [KINDS.get(first?.text ?? '') ?? (partKind(first?.text ?? '') && PART_LINE), 1];
}

const isPart = (word: TextToken | undefined): boolean => word !== undefined && (word.quoted || partKind(word.text) !== undefined);

/** Reads one line into the plan, or says what is amiss with it; an empty line is well. */
export function readLine(line: string, draft: PlanDraft): Outcome<unknown> {
  const words = wordsOfLine(line);
  if (!words.ok || !words.value[0]) return words;
  const [kind, count] = kindOf(words.value);
  const name = (words.value[0].text === 'meant' && words.value[count - 1]?.text) || words.value[0].text;
  if (!kind) return unknownLine(words.value);
  const example = kind.exampleOf?.(name) ?? kind.example;
  const [id = '', rest] = kind.has === 'id' ? [words.value[count]?.text, words.value.slice(count + 1)] : ['', words.value.slice(count)];
  if (kind.has === 'id' && !ID.test(id))
    return failed(
      'text/bad-id',
      '',
      `${id === '' ? `${name} has no id` : `"${shortened(id)}" is not an id`}: write a letter first, then letters, digits or _, 16 at most, as in ${example}.`,
    );
  const path = kind.path(draft.plan, id);
  const before = draft.lines.get(path);
  if (kind.once && before !== undefined)
    return failed('text/given-twice', '', `${name}${id && ` ${id}`} is in line ${before} already. Remove one of the two lines.`);
  const said = readClauses(rest, kind.fields, example);
  if (!said.ok) return said;
  const refused = kind.put(said.value, draft, id, name);
  if (!refused && before === undefined) draft.lines.set(path, draft.line);
  return refused ?? words;
}

function unknownLine([first, second]: readonly TextToken[]): Outcome<never> {
  const names = [...KINDS.keys(), ...PARTS.map((p) => p.id)];
  const typed = first?.text === 'wanted' ? `wanted ${second?.text ?? ''}` : (first?.text ?? '');
  return failed(
    'text/unknown-line',
    '',
    `no line begins with "${shortened(typed)}".${didYouMean(nearestNames(typed, names)) || ' Write what it is, then its id, as in resistor R1 4k7 from a30 to -a25; a text of the earlier notation begins with bench-text 1.'}`,
  );
}
