/** `npm run bench`: prints what was measured in this run, each figure beside its reference. Nothing here is asserted. */
import { isMainThread, parentPort } from 'node:worker_threads';
import { benchProofs, seeWorkersShare } from './proofs.ts';

if (isMainThread) void bench();
else parentPort?.postMessage(seeWorkersShare());

async function bench(): Promise<void> {
  console.log(`Lampwright bench, Node ${process.version}, ${process.platform}. Compare ratios, not times.`);
  const only = process.argv[2];
  // `npm run bench -- page` measures the page alone, `-- proofs` the proofs
  if (only === 'proofs') return benchProofs();
  // not loaded by the thread that helps with a proof
  const [{ benchCore }, { benchPage }] = await Promise.all([import('./core.ts'), import('./page.ts')]);
  if (only !== 'page') await benchCore();
  await benchPage();
}
