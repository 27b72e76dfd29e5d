/** A session and its worker without a browser: two ends of a line that copies what goes through it, and a clock that a test moves. */
import { Session } from '../../client/state/session.ts';
import type { Port } from '../../client/worker/port.ts';
import type { Ask, Tell } from '../../client/worker/protocol.ts';
import { createWorkerLoop } from '../../client/worker/simulation.ts';
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

export interface LineSetting {
  readonly box?: SharedArrayBuffer | undefined;
  /** a browser holds messages to the page back until it has painted [ms] */
  readonly toPage?: number;
}

export function liveBench({ box, toPage = UNDER_WAY }: LineSetting = {}): LiveBench {
  const clock = new FakeClock();
  const line = makeLine<Tell, Ask>(clock, toPage);
  const told: Tell[] = [];
  const worker: Port<Ask, Tell> = {
    post: (message) => {
      told.push(message);
      line.worker.post(message);
    },
    listen: line.worker.listen,
  };
  createWorkerLoop({ port: worker, clock });
  const session = new Session({ port: line.page, clock, box });
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
