/** A session and its worker without a browser: two ends of a line that copies what goes through it, and a clock that a test moves. */
import { Session } from '../../client/state/session.ts';
import type { Port } from '../../client/worker/port.ts';
import type { Ask, Tell } from '../../client/worker/protocol.ts';
import { createWorkerLoop } from '../../client/worker/simulation.ts';
import { Watchdog, type WorkerEnd } from '../../client/worker/watchdog.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Failure } from '../../sim-core/index.ts';
import { FakeClock } from './fake-clock.ts';

/** A message is so long under way [ms]. */
const UNDER_WAY = 1;

/** Two ends of a line; what is posted at one is heard at the other as a copy, in order. toPage: how long that way takes [ms]. */
function makeLine<A, B>(clock: FakeClock, toPage: number): { readonly page: Port<A, B>; readonly worker: Port<B, A> } {
  let atPage: (message: A) => void = () => {};
  let atWorker: (message: B) => void = () => {};
  return {
    page: {
      post: (message) => {
        const copy = structuredClone(message);
        clock.after(UNDER_WAY, () => atWorker(copy));
      },
      listen: (hear) => {
        atPage = hear;
      },
    },
    worker: {
      post: (message) => {
        const copy = structuredClone(message);
        clock.after(toPage, () => atPage(copy));
      },
      listen: (hear) => {
        atWorker = hear;
      },
    },
  };
}

export interface LiveBench {
  readonly session: Session;
  readonly clock: FakeClock;
  /** everything that the worker has told, oldest first */
  readonly told: readonly Tell[];
  /** what was refused, oldest first */
  readonly refused: readonly Failure[];
  /** Opens a plan and waits for its first words; false: it was refused. */
  open(plan: Plan): Promise<boolean>;
}

/** What a worker does instead of what it is asked: it throws, or never says anything again. */
export type WorkerFailure = 'throws' | 'silent';

export interface LineSetting {
  /** asked for each message that comes to a worker; worker: counts those that were begun, from 1 */
  readonly fails?: (ask: Ask, worker: number) => WorkerFailure | undefined;
  /** how long the worker's machine takes from one look at the clock to the next [ms] */
  readonly workMs?: () => number;
  readonly box?: SharedArrayBuffer | undefined;
  /** a browser holds messages to the page back until it has painted [ms] */
  readonly toPage?: number;
}

export function liveBench({ box, toPage = UNDER_WAY, fails = () => undefined, workMs = () => 0 }: LineSetting = {}): LiveBench {
  const clock = new FakeClock();
  const told: Tell[] = [];
  let workers = 0;
  const start = (): WorkerEnd<Tell, Ask> => {
    workers += 1;
    const [worker, line] = [workers, makeLine<Tell, Ask>(clock, toPage)];
    let ended = false;
    let onError = () => {};
    createWorkerLoop({
      port: {
        post: (message) => {
          if (ended) return;
          told.push(message);
          line.worker.post(message);
        },
        listen: (hear) =>
          line.worker.listen((ask) => {
            if (ended) return;
            const failure = fails(ask, worker);
            if (failure === undefined) hear(ask);
            else ended = true;
            if (failure === 'throws') onError();
          }),
      },
      clock: {
        now() {
          clock.spend(workMs());
          return clock.now();
        },
        after: (ms, does) => clock.after(ms, () => ended || does()),
      },
    });
    const terminate = () => {
      ended = true;
    };
    return {
      ...line.page,
      terminate,
      onError: (does) => {
        onError = does;
      },
    };
  };
  const session = new Session({ port: new Watchdog({ start, clock }), clock, makeBox: () => box });
  const refused: Failure[] = [];
  session.on('refused', (failure) => refused.push(failure));
  return {
    session,
    clock,
    told,
    refused,
    open(plan) {
      const stands = session.open(JSON.stringify(plan));
      clock.pass(100);
      return stands;
    },
  };
}
