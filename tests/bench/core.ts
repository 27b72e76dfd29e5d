/** The parts of the core that can be measured, by the names that the command takes. */
import { benchLive, benchMemoryUsed } from './live.ts';
import { benchOperatingPoints, wind } from './operating-points.ts';
import { benchProofs } from './proofs.ts';
import { benchRecord } from './record.ts';
import { benchSweeps } from './sweeps.ts';
import { benchTables } from './tables.ts';
import { benchTransients } from './transients.ts';
import { benchVariants } from './variants.ts';

export { wind };

export const CORE: Readonly<Record<string, () => void | Promise<void>>> = {
  points: benchOperatingPoints,
  sweeps: benchSweeps,
  proofs: benchProofs,
  transients: benchTransients,
  live: benchLive,
  variants: benchVariants,
  memory: benchMemoryUsed,
  record: benchRecord,
  tables: benchTables,
};
