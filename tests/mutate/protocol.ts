/** What the runner and its child processes say to each other. */
import type { Switched } from './switches.ts';

/** One test of a file, by its place among those collected, which is the same on every run. */
export interface TestChoice {
  readonly file: string;
  /** absent: all */
  readonly tests?: readonly number[];
}

export type Task =
  /** run all of a file's tests, with marks in the files of the product that have arms */
  | {
      readonly do: 'survey';
      readonly file: string;
      readonly arms: ReadonlyArray<readonly [path: string, first: number]>;
      readonly count: number;
    }
  /** from now on the product is loaded with these mutants in it, none of them in force */
  | { readonly do: 'plant'; readonly planted: readonly Switched[] }
  /** run tests on a planted mutant until the first fails */
  | {
      readonly do: 'trial';
      readonly id: number;
      /** whether its place runs when the product is loaded, so that it must be loaded again */
      readonly load: boolean;
      readonly choices: readonly TestChoice[];
    };

/** What one test of a survey took and reached. */
export interface Surveyed {
  readonly name: string;
  readonly passed: boolean;
  readonly ms: number;
  readonly arms: readonly number[];
}

export interface FileSurvey {
  readonly file: string;
  /** arms reached when the file and what it imports were loaded */
  readonly loading: readonly number[];
  /** those of them that the product itself reaches when it is loaded */
  readonly fixed: readonly number[];
  /** files of the product that were loaded */
  readonly loaded: readonly string[];
  readonly tests: readonly Surveyed[];
  /** the file itself failed */
  readonly broken?: string;
}

/** The test that failed; without an index something outside the tests did: loading the file, or a hook. */
export interface Failure {
  readonly file: string;
  readonly index?: number;
  readonly name: string;
}

export type Answer =
  | { readonly is: 'ready' }
  /** a file or a test begins; index absent while the file is loaded */
  | { readonly is: 'begins'; readonly file: string; readonly index?: number; readonly name: string }
  | { readonly is: 'surveyed'; readonly survey: FileSurvey }
  /** sound: what failed passes without the mutant, run in the same way */
  | { readonly is: 'tried'; readonly tests: number; readonly by?: Failure; readonly sound?: boolean };
