/** Workers as the page begins them: each runs the same script, and its name says what it becomes. */
import { type Port, portOf } from './port.ts';
import type { Ask, Tell } from './protocol.ts';

/** The live simulation. */
export const startSimulation = (): Port<Tell, Ask> =>
  portOf(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'simulation' }));

/** A worker for long work, as much of it as its client needs; ending it is the only way to stop what it does. */
export type JobWorker = Pick<Worker, 'postMessage' | 'terminate' | 'onmessage' | 'onerror'>;

export const startJobWorker = (): JobWorker => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'reckoner' });
