/** Workers as the page begins them: each runs the same script, and its name says what it becomes. */
import type { JobWorker } from './jobs.ts';
import { type Port, portOf } from './port.ts';
import type { Ask, Tell } from './protocol.ts';

/** The live simulation. */
export const startSimulation = (): Port<Tell, Ask> =>
  portOf(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'simulation' }));

/** For long work. */
export const startJobWorker = (): JobWorker => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'job' });
