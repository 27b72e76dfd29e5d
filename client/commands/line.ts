/** A typed line: which action it begins with, the words after it, and which actions or words come nearest to what is typed. */
import type { Outcome } from '../core.ts';
import type { Answer, Command, Desk, Offer } from './command.ts';

export interface Line {
  readonly command: Command;
  /** the words after its name; a last space begins a new, empty one */
  readonly words: readonly string[];
}

/** Splits at spaces; what stands in quotes is one word. */
const splitWords = (text: string): string[] => [...text.matchAll(/"([^"]*)"?|(\S+)/g)].map((m) => m[1] ?? m[2] ?? '');

/** The action with the longest name that the line begins with; undefined while none is complete. */
export function parseCommandLine(text: string, commands: readonly Command[]): Line | undefined {
  const words = splitWords(text);
  const open = /\s$/.test(text) && words.length > 0;
  let found: Line | undefined;
  for (const command of commands) {
    const name = command.name.split(' ');
    if (!name.every((w, i) => w === words[i]?.toLowerCase())) continue;
    if (found && name.length <= found.command.name.split(' ').length) continue;
    const rest = words.slice(name.length);
    found = { command, words: open ? [...rest, ''] : rest };
  }
  return found;
}

/** The words that count: without the empty one that a last space began. */
const typedWords = ({ words }: Line): readonly string[] => words.filter((w) => w !== '');

/** The first place that must be filled and is not. */
export const missing = (line: Line): string | undefined =>
  line.command.takes.find((slot, i) => !slot.optional && (typedWords(line)[i] ?? '') === '')?.shown;

/** One thing that the list under the line offers. */
export interface CommandChoice {
  /** what the line will say */
  readonly line: string;
  readonly means: string;
  /** the line is then complete */
  readonly whole: boolean;
}

/** More choices than this are not listed. */
const MOST = 50;

/** What could come next, best first. */
export function choicesFor(text: string, commands: readonly Command[], desk: Desk): readonly CommandChoice[] {
  const line = parseCommandLine(text, commands);
  const typingWord = line && (line.words.length > 0 || /\s$/.test(text));
  if (line && typingWord) return wordChoices(text, line, desk).slice(0, MOST);
  return ranked(text.trim(), actionChoices(commands, desk)).slice(0, MOST);
}

function actionChoices(commands: readonly Command[], desk: Desk): CommandChoice[] {
  return commands.flatMap((c): CommandChoice[] => {
    const [first] = c.takes;
    const plain: CommandChoice = { line: c.name, means: c.means, whole: !first || first.optional === true };
    if (!first?.few) return [plain];
    const each = (first.offers?.(desk, []) ?? []).map(
      (o): CommandChoice => ({ line: `${c.name} ${o.word}`, means: o.means ?? c.means, whole: c.takes.slice(1).every((s) => s.optional) }),
    );
    return plain.whole ? [plain, ...each] : each;
  });
}

function wordChoices(text: string, { command, words }: Line, desk: Desk): readonly CommandChoice[] {
  const at = Math.max(0, words.length - 1);
  const slot = command.takes[at] ?? (command.takes.at(-1)?.many ? command.takes.at(-1) : undefined);
  const typed = words[at] ?? '';
  const head = text.slice(0, text.length - typed.length).trimEnd();
  const whole = command.takes.slice(at + 1).every((s) => s.optional);
  const offers = slot?.offers?.(desk, words.slice(0, at)) ?? [];
  return ranked(
    typed,
    offers.map((o: Offer): CommandChoice => ({ line: `${head} ${quoted(o.word)}`, means: o.means ?? '', whole })),
    (c) => c.line.slice(head.length + 1),
  );
}

const quoted = (word: string) => (/\s/.test(word) ? `"${word}"` : word);

/** The choices in which the typed letters are found, the nearest first; with nothing typed, all in their own order. */
function ranked(typed: string, choices: readonly CommandChoice[], textOf: (c: CommandChoice) => string = (c) => c.line): CommandChoice[] {
  if (typed === '') return [...choices];
  return choices
    .map((choice, i) => ({ choice, i, score: Math.max(likeness(typed, textOf(choice)), 0.4 * likeness(typed, choice.means)) }))
    .filter((r) => r.score > 0)
    .sort((a, b) => b.score - a.score || a.i - b.i)
    .map((r) => r.choice);
}

/**
 * How near typed letters come to a text: 0 if they are not all in it in their order. A letter counts more at the beginning of a word and right after
 * the one before it; of two texts that match alike the shorter is nearer.
 */
export function likeness(typed: string, text: string): number {
  const [want, have] = [typed.toLowerCase().replace(/\s+/g, ''), text.toLowerCase()];
  if (want === '') return 0;
  let score = 0;
  let at = -1;
  for (const letter of want) {
    const next = have[at + 1] === letter ? at + 1 : startOf(have, letter, at + 1);
    if (next < 0) return 0;
    score += next === at + 1 ? 3 : /[\w.]/.test(have[next - 1] ?? ' ') ? 0.5 : 2;
    at = next;
  }
  return score / (want.length * 3) + 1 / (10 + have.length);
}

/** The next place of a letter: at the beginning of a word if there is one, else anywhere. */
function startOf(text: string, letter: string, from: number): number {
  for (let i = text.indexOf(letter, from); i >= 0; i = text.indexOf(letter, i + 1))
    if (i === 0 || !/[\w.]/.test(text[i - 1] ?? '')) return i;
  return text.indexOf(letter, from);
}

/** Does one line as it is typed: the action's answer, or what is amiss with the line. */
export async function runLine(text: string, commands: readonly Command[], desk: Desk) {
  const line = parseCommandLine(text, commands);
  if (!line) {
    const first = splitWords(text)[0] ?? '';
    const [nearest] = ranked(first, actionChoices(commands, desk));
    return refusal(
      first,
      `No action is called "${first}"${nearest ? `; the nearest is "${nearest.line}"` : ''}. Type "keys" for the list.`,
    );
  }
  const lacks = missing(line);
  const words = typedWords(line);
  if (lacks)
    return refusal(
      line.command.name,
      `"${line.command.name}" still needs ${lacks}${line.command.example ? `, for example: ${line.command.example}` : ''}.`,
    );
  const most = line.command.takes.at(-1)?.many ? Number.POSITIVE_INFINITY : line.command.takes.length;
  const over = words[most];
  if (over !== undefined)
    return refusal(
      over,
      `"${over}" is too much after "${line.command.name}"${line.command.example ? `; write for example: ${line.command.example}` : ''}.`,
    );
  return line.command.run(words, desk);
}

export const refusal = (at: string, says: string) => ({ ok: false, failure: { at, says } }) as const;
export const said = (value: string) => ({ ok: true, value }) as const;
/** What is said once it is done, or why it could not be. */
export const afterWord = (done: Outcome<unknown>, says: string): Answer => (done.ok ? said(says) : done);
