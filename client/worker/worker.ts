/** Every worker's first line: by its name it becomes the live simulation or does long work, so that both share one copy of the simulator on the wire. */
import { systemClock } from './clock.ts';
import { portOf } from './port.ts';

/** keeps what is asked before the rest of the script has come */
const port = portOf<never, unknown>(self);

async function begin(): Promise<void> {
  if (self.name === 'simulation') {
    const { createWorkerLoop } = await import('./simulation.ts');
    createWorkerLoop({ port, clock: systemClock });
  } else {
    const { createJobLoop } = await import('./job-worker.ts');
    const helpers = {
      cores: navigator.hardwareConcurrency || 1,
      // the script that this worker runs itself
      start: () => (typeof Worker === 'undefined' ? undefined : new Worker(self.location.href, { type: 'module', name: self.name })),
    };
    createJobLoop({ port, clock: systemClock, helpers, fail: reportError });
  }
}

begin().catch(reportError);
