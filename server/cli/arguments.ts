/** The words of the shell, sorted into words and options of a command. What a command does not take is refused with the nearest name. */
import { parseArgs } from 'node:util';
import { didYouMean, nearestNames } from '../../shared/misspelling.ts';
import { done, failed, type Outcome } from '../../sim-core/index.ts';
import type { Arguments, Option, ShellCommand } from './command.ts';

/** Options of every command. */
export const COMMON: Readonly<Record<string, Option>> = {
  json: { means: 'print data instead of sentences' },
  help: { means: 'print the help of this command' },
};

/** `args`: what stands behind the command's name. */
export function readArguments(command: ShellCommand, args: readonly string[]): Outcome<Arguments> {
  const options = { ...command.options, ...COMMON };
  const { tokens } = parseArgs({
    args: [...args],
    allowPositionals: true,
    strict: false,
    tokens: true,
    options: Object.fromEntries(Object.entries(options).map(([name, o]) => [name, { type: o.value === undefined ? 'boolean' : 'string' }])),
  });
  const words: string[] = [];
  const values: Record<string, string> = {};
  const flags = new Set<string>();
  for (const token of tokens) {
    if (token.kind === 'positional') words.push(token.value);
    if (token.kind !== 'option') continue;
    const { name, rawName, value, inlineValue = false } = token;
    const option = rawName === `--${name}` && Object.hasOwn(options, name) ? options[name] : undefined;
    if (!option) return failed('cli/unknown-option', rawName, unknownOption(rawName, command.name, Object.keys(options)));
    if (flags.has(name) || Object.hasOwn(values, name))
      return failed('cli/option-twice', rawName, `${rawName} is given twice. Leave one out.`);
    if (option.value === undefined) {
      if (value !== undefined) return failed('cli/bad-value', rawName, `${rawName} takes no value. Leave "${value}" out.`);
      flags.add(name);
    } else {
      const wrong = valueProblem(rawName, option, value, inlineValue);
      if (wrong !== undefined) return failed('cli/bad-value', rawName, wrong);
      values[name] = value ?? '';
    }
  }
  const over = command.more ? undefined : words[1];
  if (over !== undefined)
    return failed('command/too-many-words', over, `${command.name} takes one ${command.takes} and options. "${over}" is too much.`);
  return done({ words, values, flags });
}

function unknownOption(given: string, command: string, names: readonly string[]): string {
  const known = names.map((n) => `--${n}`);
  const near = didYouMean(nearestNames(given, known));
  return `${given} is not an option of ${command}.${near || ` It takes ${known.join(', ')}.`}`;
}

function valueProblem(rawName: string, { value: what, choices }: Option, value: string | undefined, inlineValue: boolean) {
  if (value === undefined || (!inlineValue && value.startsWith('-')))
    return `${rawName} needs a value: ${rawName} ${choices ? choices.join('|') : what}.`;
  if (!choices || choices.includes(value)) return undefined;
  return `${rawName} cannot be "${value}".${didYouMean(nearestNames(value, choices)) || ` It takes ${choices.join(', ')}.`}`;
}
