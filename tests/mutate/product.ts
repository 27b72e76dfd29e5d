/** The product and its tests as a child process loads them: through a Vite server of its own that may put other texts in place of files; no file is changed. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { createServer, createServerModuleRunner, type Plugin, type RunnableDevEnvironment } from 'vite';

type Change = (text: string) => string;

/** A table that the product fills as it runs; what one mutant has put there is nothing for the next. */
const TABLE = /^const (\w+) = new Map(?:<.*>)?\(\);$/gm;

export async function openProduct() {
  /** What stands for the text of a file of the product, by the file's full name. */
  let replaced: ReadonlyMap<string, Change> = new Map();
  const tables = new Set<Map<unknown, unknown>>();
  Object.assign(globalThis, { mutantTables: tables });

  const replacing: Plugin = {
    name: 'replaced-text',
    enforce: 'pre',
    load(id) {
      if (!/\/(sim-core|shared)\/.*\.ts$/.test(id)) return undefined;
      const text = readFileSync(id, 'utf8');
      const cleared = [...text.matchAll(TABLE)].map(([, name]) => `globalThis.mutantTables.add(${name});\n`).join('');
      return (replaced.get(id)?.(text) ?? text) + cleared;
    },
  };
  const vite = await createServer({
    configFile: false,
    logLevel: 'error',
    appType: 'custom',
    plugins: [replacing],
    server: { middlewareMode: true, watch: null, ws: false, hmr: false },
  });
  const environment = vite.environments.ssr as RunnableDevEnvironment;
  const modules = createServerModuleRunner(environment, { hmr: false, sourcemapInterceptor: false });
  const tests = resolve('tests');

  const forget = (): void => {
    tables.clear();
    modules.clearCache();
  };
  return {
    /** From now on these files have other texts; all modules are loaded again. */
    replace(changes: ReadonlyMap<string, Change>): void {
      for (const id of new Set([...replaced.keys(), ...changes.keys()]))
        for (const node of environment.moduleGraph.getModulesByFile(id) ?? []) environment.moduleGraph.invalidateModule(node);
      replaced = changes;
      forget();
    },
    /** All modules are loaded again. */
    forget,
    /** A test file, and what tests share, is loaded at each call: tests register themselves, and benches that they keep are built by the mutant. */
    async loadTests(path: string): Promise<unknown> {
      for (const table of tables) table.clear();
      for (const [file, nodes] of modules.evaluatedModules.fileToModulesMap)
        if (file.startsWith(tests)) for (const node of [...nodes]) modules.evaluatedModules.invalidateModule(node);
      await modules.import(resolve('tests/support/seeded.ts'));
      return modules.import(path);
    },
    /** One module of the product; that it needs a browser is no fault here. */
    loadAlone: (path: string): Promise<unknown> => modules.import(path).catch(() => undefined),
    /** full names of all files that are loaded */
    loaded: (): string[] => [...modules.evaluatedModules.fileToModulesMap.keys()],
  };
}

export type Product = Awaited<ReturnType<typeof openProduct>>;
