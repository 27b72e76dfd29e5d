/**
 * `npm run bench`: prints what was measured in this run, each figure beside its reference, and how the stated ratios were met; ends with 1 if one was missed by
 * a fifth or something could not be measured. `-- points live` measures these parts alone, `-- core` all but the page, `--json FILE` writes all figures.
 */
import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { seeWorkersShare } from './proofs.ts';
import { conclude, measured } from './report.ts';
import { walkCold } from './sweeps.ts';

if (isMainThread) process.exitCode = (await bench(process.argv.slice(2))) ? 0 : 1;
else parentPort?.postMessage(workerData.cold ? walkCold(workerData.cold) : seeWorkersShare());

async function bench(args: string[]): Promise<boolean> {
  console.log(`Lampwright bench, Node ${process.version}, ${process.platform}. Compare ratios, not times.`);
  const at = args.indexOf('--json');
  const [, file] = at < 0 ? [] : args.splice(at, 2);
  // not loaded by the threads that help
  const [{ CORE, wind }, { benchPage }] = await Promise.all([import('./core.ts'), import('./page.ts')]);
  const parts = [...Object.keys(CORE), 'page'];
  const unknown = args.filter((a) => a !== 'core' && !parts.includes(a));
  if (unknown.length > 0 || (at >= 0 && file === undefined)) {
    console.log(`There is no part ${unknown.join(', ') || 'without a file after --json'}. Parts: core, ${parts.join(', ')}.`);
    return false;
  }
  for (const part of parts) {
    if (args.length > 0 && !args.includes(part) && !(args.includes('core') && part !== 'page')) continue;
    wind();
    await measured(part, CORE[part] ?? benchPage);
  }
  return conclude(file);
}
