/** A typed line: which action it names, what it lacks, and what could come next. Only an exact name or synonym runs anything. */
import { didYouMean, misspelling } from '../../shared/misspelling.ts';
import { done, failed, type Outcome } from '../../sim-core/index.ts';
import type { Answer, Command, CommandContext, Offer } from './command.ts';
import { likeness } from './likeness.ts';
import { placeLines } from './place-lines.ts';
import { fillSlots, quoted, splitWords } from './words.ts';

export interface Line {
  readonly command: Command;
  /** the words after its name; a last space begins a new, empty one */
  readonly words: readonly string[];
}

export const namesOf = (c: Command): readonly string[] => [c.name, ...c.synonyms];

/** The action with the longest name or synonym that the line begins with; undefined while none is complete. */
export function parseCommandLine(text: string, commands: readonly Command[]): Line | undefined {
  const words = splitWords(text);
  const open = /\s$/.test(text) && words.length > 0;
  let found: Line | undefined;
  let longest = 0;
  for (const command of commands)
    for (const called of namesOf(command)) {
      const name = called.split(' ');
      if (name.length <= longest || !name.every((w, i) => w === words[i]?.toLowerCase())) continue;
      const rest = words.slice(name.length);
      [longest, found] = [name.length, { command, words: open ? [...rest, ''] : rest }];
    }
  return found;
}

/** The words that count: without the empty one that a last space began. */
const typedWords = ({ words }: Line): readonly string[] => words.filter((w) => w !== '');

/** The first place that must be filled and is not. */
export const missing = (line: Line): string | undefined => fillSlots(line.command.takes, typedWords(line)).lacks?.shown;

/** One thing that the list under the line offers. */
export interface CommandChoice {
  /** what the line will say */
  readonly line: string;
  readonly means: string;
  /** the line is then complete */
  readonly whole: boolean;
}
interface Candidate extends CommandChoice {
  /** what it is also found by */
  readonly also?: readonly string[];
  /** how well it fits, where that is known already */
  readonly fit?: number;
}

/** An exact name comes first, then the part that the words name; the other parts are among what is like the letters. */
const [EXACT, NAMED_PART, OTHER_PART] = [2, 1.2, 0.6];

/** More choices than this are not listed; in the search of Parts, than this. */
const [MOST, MOST_NAMED] = [50, 3];
/** A typed beginning of a name is at least so long [letters]. */
const BEGUN = 3;

/** What could come next, best first. */
export function choicesFor(text: string, commands: readonly Command[], context: CommandContext): readonly CommandChoice[] {
  const line = parseCommandLine(text, commands);
  const choosing = line && (line.words.length > 0 || /\s$/.test(text));
  if (!choosing) return ranked(text.trim(), [...actionChoices(commands, context), ...partChoices(text)]).slice(0, MOST);
  // "rotate l" may go on to a part, or to be "rotate left"; and "flip flop" is a part
  const longer = actionChoices(commands, context).filter((c) => c.line !== line.command.name && c.line.startsWith(text.toLowerCase()));
  const next = wordChoices(text, line, context).filter((c) => longer.every((l) => l.line !== c.line));
  return [...longer, ...next, ...partChoices(text)].slice(0, MOST);
}

const partChoices = (text: string): Candidate[] =>
  placeLines(text).map(({ named, ...c }, i) => ({ ...c, whole: true, fit: i === 0 && named ? NAMED_PART : OTHER_PART }));

/** Commands of which the words are a name, or the beginning of one; for whoever types them in the search of Parts. */
export function commandsNamed(text: string, commands: readonly Command[]): readonly CommandChoice[] {
  const want = text.trim().toLowerCase();
  if (want === '') return [];
  const named = (c: Command) => Math.max(...namesOf(c).map((n) => (n === want ? 2 : n.startsWith(want) && want.length >= BEGUN ? 1 : 0)));
  return commands
    .map((c) => ({ c, fits: named(c) }))
    .filter((f) => f.fits > 0)
    .sort((a, b) => b.fits - a.fits)
    .slice(0, MOST_NAMED)
    .map(({ c }) => ({ line: c.name, means: c.means, whole: c.takes.every((s) => s.optional) }));
}

function actionChoices(commands: readonly Command[], context: CommandContext): Candidate[] {
  return commands.flatMap((c): Candidate[] => {
    const [first, ...more] = c.takes;
    const plain = { line: c.name, means: c.means, whole: c.takes.every((s) => s.optional), also: c.synonyms };
    if (!first?.few) return [plain];
    const each = (first.offers?.(context, []) ?? []).map((o) => ({
      line: `${c.name} ${o.word}`,
      means: o.means ?? c.means,
      whole: more.every((s) => s.optional),
      also: c.synonyms.map((s) => `${s} ${o.word}`),
    }));
    return plain.whole ? [plain, ...each] : each;
  });
}

function wordChoices(text: string, { command, words }: Line, context: CommandContext): readonly CommandChoice[] {
  const typed = words.at(-1) ?? '';
  const head = text.slice(0, text.length - typed.length).trimEnd();
  const { values, open } = fillSlots(command.takes, words.slice(0, -1));
  const candidates = open.flatMap(({ slot, led }): Candidate[] => {
    const at = command.takes.indexOf(slot);
    const whole = command.takes.slice(at + 1).every((s) => s.optional);
    if (slot.before && !led)
      return slot.before.slice(0, 1).map((w) => ({ line: `${head} ${w}`, means: `then ${slot.shown}`, whole: false }));
    const before = values.slice(0, at).map((v) => v ?? '');
    return (slot.offers?.(context, before) ?? []).map((o: Offer) => ({ line: `${head} ${quoted(o.word)}`, means: o.means ?? '', whole }));
  });
  return ranked(typed, candidates, (c) => c.line.slice(head.length + 1));
}

/** The choices in which the typed letters are found, the nearest first; with nothing typed, all in their own order. */
function ranked(typed: string, choices: readonly Candidate[], textOf: (c: Candidate) => string = (c) => c.line): CommandChoice[] {
  if (typed === '') return [...choices];
  const want = typed.toLowerCase();
  const scoreOf = (c: Candidate) =>
    c.fit ??
    (c.line.toLowerCase() === want || c.also?.includes(want) ? EXACT : 0) +
      Math.max(likeness(typed, textOf(c)), ...(c.also ?? []).map((name) => 0.9 * likeness(typed, name)), 0.4 * likeness(typed, c.means));
  return choices
    .map((choice, i) => ({ choice, i, score: scoreOf(choice) }))
    .filter((r) => r.score > 0)
    .sort((a, b) => b.score - a.score || a.i - b.i)
    .map((r) => r.choice);
}

/** The actions that a person may have meant by a name that there is not: misspelt first, then begun, then those whose letters it has. */
export function nearestActions(typed: string, commands: readonly Command[], most = 3): readonly string[] {
  const want = typed.trim().toLowerCase();
  const first = splitWords(want)[0] ?? '';
  const far = (c: Command) => Math.min(...namesOf(c).flatMap((n) => [misspelling(want, n), misspelling(first, n)]));
  const likely = (c: Command) => Math.max(...namesOf(c).map((n) => (n.startsWith(want) ? 2 : likeness(want, n))));
  const slips = want.length <= 4 ? 1 : 2;
  return commands
    .map((c, i) => ({ name: c.name, i, far: far(c), likely: likely(c) }))
    .filter((c) => c.far <= slips || c.likely > 0.8)
    .sort((a, b) => Math.min(a.far, slips + 1) - Math.min(b.far, slips + 1) || b.likely - a.likely || a.i - b.i)
    .slice(0, most)
    .map((c) => c.name);
}

const forExample = ({ example }: Command) => (example ? `, for example: ${example}` : '');

/** Does one line as it is typed: the action's answer, or what is amiss with the line. */
export async function runLine(text: string, commands: readonly Command[], context: CommandContext) {
  const line = parseCommandLine(text, commands);
  if (!line)
    return failed(
      'command/unknown',
      text.trim(),
      `No command "${text.trim()}".${didYouMean(nearestActions(text, commands))} Type "keys" for the list.`,
    );
  const { command } = line;
  const { values, lacks, over } = fillSlots(command.takes, typedWords(line));
  if (over?.wants?.before)
    return failed('command/missing-word', over.word, `Write "${over.wants.before[0]}" before "${over.word}"${forExample(command)}.`);
  if (lacks)
    return failed(
      'command/missing-word',
      command.name,
      `"${command.name}" needs ${lacks.before ? `${lacks.before[0]} ` : ''}${lacks.shown}${forExample(command)}.`,
    );
  if (over) {
    const meant = didYouMean(nearestActions(text, commands).filter((name) => name !== command.name));
    return failed(
      'command/too-many-words',
      over.word,
      `"${command.name}" takes no "${over.word}".${meant}${command.example ? ` Example: ${command.example}` : ''}`,
    );
  }
  return command.run(values, context);
}

export const said = (value: string): Outcome<string> => done(value);
/** What is said once it is done, or why it could not be. */
export const afterWord = (done: Outcome<unknown>, says: string): Answer => (done.ok ? said(says) : done);
