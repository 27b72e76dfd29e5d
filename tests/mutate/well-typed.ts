/** Which mutants the compiler accepts: one that it refuses never runs, so it counts neither as killed nor as survived. */
import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import ts from 'typescript';
import { type Mutant, mutated } from './mutant.ts';

/** A compiler that keeps the program between rounds and is told which files are changed in the next. */
export class TypeCheck {
  readonly #options: ts.CompilerOptions;
  readonly #roots: readonly string[];
  readonly #parsed = new Map<string, ts.SourceFile | undefined>();
  #program: ts.Program | undefined;

  constructor() {
    const config = ts.readConfigFile('tsconfig.json', (f) => readFileSync(f, 'utf8')).config;
    const parsed = ts.parseJsonConfigFileContent(config, ts.sys, dirname(resolve('tsconfig.json')));
    this.#options = { ...parsed.options, noEmit: true };
    this.#roots = parsed.fileNames.filter((f) => /\/(sim-core|shared)\//.test(f));
  }

  /** Those without an error in their own file; mutants of different files are checked in one round. */
  accepted(mutants: readonly Mutant[]): Mutant[] {
    const waiting = new Map<string, Mutant[]>();
    for (const m of mutants) waiting.set(m.path, [...(waiting.get(m.path) ?? []), m]);
    const good = new Set<Mutant>();
    while (waiting.size > 0) {
      const round: Mutant[] = [];
      for (const [path, list] of waiting) {
        round.push(list.pop() as Mutant);
        if (list.length === 0) waiting.delete(path);
      }
      for (const m of this.#round(round)) good.add(m);
    }
    return mutants.filter((m) => good.has(m));
  }

  #round(mutants: readonly Mutant[]): Mutant[] {
    const changed = new Map(mutants.map((m) => [resolve(m.path), m]));
    const host = ts.createCompilerHost(this.#options);
    const read = host.getSourceFile.bind(host);
    host.getSourceFile = (name, target) => {
      const m = changed.get(name);
      if (m) return ts.createSourceFile(name, mutated(readFileSync(name, 'utf8'), m), target);
      if (!this.#parsed.has(name)) this.#parsed.set(name, read(name, target));
      return this.#parsed.get(name);
    };
    const program = ts.createProgram({
      rootNames: this.#roots,
      options: this.#options,
      host,
      ...(this.#program ? { oldProgram: this.#program } : {}),
    });
    this.#program = program;
    return mutants.filter((m) => {
      const file = program.getSourceFile(resolve(m.path));
      return file !== undefined && program.getSyntacticDiagnostics(file).length === 0 && program.getSemanticDiagnostics(file).length === 0;
    });
  }
}
