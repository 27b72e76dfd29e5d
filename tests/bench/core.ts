/** Speed of the core, each figure beside its reference in the same run. */
import { benchLive, benchMemoryUsed } from './live.ts';
import { benchOperatingPoints } from './operating-points.ts';
import { benchProof, benchSweeps } from './sweeps.ts';
import { benchTables } from './tables.ts';
import { benchTransients } from './transients.ts';

export function benchCore(): void {
  benchOperatingPoints();
  benchSweeps();
  benchProof();
  benchTransients();
  benchLive();
  benchMemoryUsed();
  benchTables();
}
