/** Speed of the core, each figure beside its reference in the same run. */
import { benchLive, benchMemoryUsed } from './live.ts';
import { benchOperatingPoints } from './operating-points.ts';
import { benchProofs } from './proofs.ts';
import { benchSweeps } from './sweeps.ts';
import { benchTables } from './tables.ts';
import { benchTransients } from './transients.ts';

export async function benchCore(): Promise<void> {
  benchOperatingPoints();
  benchSweeps();
  await benchProofs();
  benchTransients();
  benchLive();
  benchMemoryUsed();
  benchTables();
}
