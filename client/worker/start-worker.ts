/** Workers as the page begins them: each runs the same script, and its name says what it becomes. */
import type { JobWorker } from './jobs.ts';
import { portOf } from './port.ts';
import type { Ask, Tell } from './protocol.ts';
import type { WorkerEnd } from './watchdog.ts';

/** The live simulation. */
export function startSimulation(): WorkerEnd<Tell, Ask> {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'simulation' });
  return {
    ...portOf<Tell, Ask>(worker),
    onError: (does) => worker.addEventListener('error', does),
    terminate: () => worker.terminate(),
  };
}

/** For long work. */
export const startJobWorker = (): JobWorker => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'job' });
