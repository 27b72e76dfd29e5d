/** What a command of the shell is: what it takes, what it says of itself, and how it answers. */
import { done, type Outcome } from '../../sim-core/index.ts';

/** 0: fine; 1: the command found something wrong; 2: it could not be carried out. */
export type ExitCode = 0 | 1 | 2;

/** Where lines go. */
export interface Output {
  out(text: string): void;
  refuse(text: string): void;
}

export interface Option {
  /** what stands after it, such as 'NAME'; absent: it takes no value */
  readonly value?: string;
  /** all the values that it takes; absent: any */
  readonly choices?: readonly string[];
  readonly means: string;
}

export interface Arguments {
  /** what stands without an option, the plan or table first */
  readonly words: readonly string[];
  /** by the option's name without -- */
  readonly values: Readonly<Record<string, string>>;
  readonly flags: ReadonlySet<string>;
}

export interface ShellAnswer {
  /** printed with --json */
  readonly data: unknown;
  /** printed without */
  readonly text: string;
  readonly code: ExitCode;
}

export interface ShellCommand {
  readonly name: string;
  readonly means: string;
  /** what its first word is */
  readonly takes: 'PLAN' | 'TABLE';
  /** it takes words after the first */
  readonly more?: 'WORD…';
  /** by name without -- */
  readonly options: Readonly<Record<string, Option>>;
  /** lines at the end of its help */
  readonly notes?: () => string;
  run(given: Arguments): Outcome<ShellAnswer>;
}

/** An answer made of a result and the two ways to print it. */
export const answer = <T>(result: Outcome<T>, text: (value: T) => string, code: (value: T) => ExitCode = () => 0): Outcome<ShellAnswer> =>
  result.ok ? done({ data: result.value, text: text(result.value), code: code(result.value) }) : result;
