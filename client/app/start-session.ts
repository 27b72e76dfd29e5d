/** The session of this page: a worker of its own, watched over, the page's clock, and memory shared between the two where the page may share it. */
import { Session } from '../state/session.ts';
import { pageClock } from '../worker/clock.ts';
import { makeSharedSnapshot } from '../worker/shared-snapshot.ts';
import { startSimulation } from '../worker/start-worker.ts';
import { Watchdog } from '../worker/watchdog.ts';

export const startSession = (): Session =>
  new Session({ port: new Watchdog({ start: startSimulation, clock: pageClock }), clock: pageClock, makeBox: makeSharedSnapshot });
