/** Every worker's first line: by its name it becomes the live simulation or does long work, so that both share one copy of the simulator on the wire. */

/** What is asked before its listener has come. */
const early: MessageEvent[] = [];
const keep = (e: MessageEvent) => void early.push(e);
addEventListener('message', keep);

const ready = self.name === 'simulation' ? import('./simulation.ts') : import('./job-worker.ts');
ready.then(() => {
  removeEventListener('message', keep);
  for (const { data } of early) dispatchEvent(new MessageEvent('message', { data }));
}, reportError);
