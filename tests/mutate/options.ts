/** The options of `npm run mutate`. */
import { cpus } from 'node:os';
import { parseArgs } from 'node:util';

export interface Options {
  readonly sample: number;
  readonly seed: number;
  /** empty: all */
  readonly rooms: readonly string[];
  /** only files of the product whose path holds this */
  readonly file: string;
  /** only test files whose path holds this */
  readonly tests: string;
  /** seconds of tests that one mutant is shown to at most */
  readonly budget: number;
  readonly workers: number;
  /** a file of --out: those of its mutants that no test noticed are tried again, with the tests of now; the others count as they did */
  readonly again?: string;
  /** every mutant's fate is written there as JSON */
  readonly out?: string;
  /** plants nothing, so that every mutant must survive: a check of this command itself */
  readonly nothing: boolean;
  /** share of killed mutants [%] below which the command fails */
  readonly least: number;
}

export const USAGE = `npm run mutate -- [--sample 600] [--seed 1] [--room NAME ...] [--file PART] [--tests PART] [--budget 30] [--workers ${cpus().length}] [--least 85] [--out FILE] [--again FILE]
Plants small mistakes in the product, one at a time, and runs the tests that reach the place. No file is changed.
--sample  how many mutants     --room   only these rooms             --file  only files with this in their path
--seed    which ones           --tests  only test files with this    --budget  seconds of tests for one mutant, at most
--least   fails below this share of killed mutants [%]               --out   every mutant's fate as JSON
--again   a file of --out: tries those again that no test noticed  --nothing  plants nothing, so that no test may fail: a check of this command itself`;

/** Throws a sentence if an option is unknown or not a number that makes sense. */
export function readOptions(args: readonly string[], knownRooms: readonly string[]): Options {
  const text = { type: 'string' } as const;
  const { values } = parseArgs({
    args: [...args],
    options: {
      sample: text,
      seed: text,
      room: { type: 'string', multiple: true },
      file: text,
      tests: text,
      budget: text,
      workers: text,
      least: text,
      out: text,
      again: text,
      nothing: { type: 'boolean' },
    },
  });
  const number = (name: 'sample' | 'seed' | 'budget' | 'workers' | 'least', usual: number, least: number): number => {
    const given = values[name];
    const value = given === undefined ? usual : Number(given);
    if (!Number.isInteger(value) || value < least) throw new Error(`--${name} is ${given}: a whole number from ${least} is expected.`);
    return value;
  };
  const rooms = values.room ?? [];
  const unknown = rooms.find((r) => !knownRooms.includes(r));
  if (unknown !== undefined) throw new Error(`There is no room "${unknown}": the rooms are ${knownRooms.join(', ')}.`);
  return {
    sample: number('sample', 600, 1),
    seed: number('seed', 1, 0),
    rooms,
    file: values.file ?? '',
    tests: values.tests ?? '',
    budget: number('budget', 30, 1),
    workers: number('workers', cpus().length, 1),
    nothing: values.nothing ?? false,
    least: number('least', values.nothing ? 0 : 85, 0),
    ...(values.out === undefined ? {} : { out: values.out }),
    ...(values.again === undefined ? {} : { again: values.again }),
  };
}
