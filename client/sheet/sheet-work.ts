/** What every printable page does behind its paper: it waits for a bench, since an address may lead to it before any stands, and has its lists made by a worker. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import type { Session } from '../state/session.ts';
import { JobClient } from '../worker/job-client.ts';

export class SheetWork implements ReactiveController {
  readonly jobs = new JobClient();
  private off = () => {};

  /** compose: called once, as soon as a bench stands; the worker is let go after it, and when the page is left */
  constructor(
    host: ReactiveControllerHost,
    private readonly session: () => Session | undefined,
    private readonly compose: (plan: Plan) => Promise<void>,
  ) {
    host.addController(this);
  }

  hostConnected() {
    const session = this.session();
    if (!session) return;
    if (session.readings && session.plan) return this.begin(session.plan);
    this.off = session.on('settled', () => {
      this.off();
      if (session.plan) this.begin(session.plan);
    });
  }

  hostDisconnected() {
    this.off();
    this.jobs.close();
  }

  private begin(plan: Plan) {
    void this.compose(plan).finally(() => this.jobs.close());
  }
}
