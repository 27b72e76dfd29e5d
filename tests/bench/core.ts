/** Speed of the core, each figure beside its reference in the same run. */
import { benchLive, benchMemoryUsed } from './live.ts';
import { benchOperatingPoints } from './operating-points.ts';
import { benchSweeps } from './sweeps.ts';
import { benchTables } from './tables.ts';
import { benchTransients } from './transients.ts';

export function benchCore(): void {
  benchOperatingPoints();
  benchSweeps();
  benchTransients();
  benchLive();
  benchMemoryUsed();
  benchTables();
}
