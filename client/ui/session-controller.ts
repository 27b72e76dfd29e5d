/** Ties a Lit element to a session: while it is on the page it is drawn again when what it listens for happens. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../state/session.ts';

type What = Parameters<Session['on']>[0];

export class SessionController implements ReactiveController {
  private offs: Array<() => void> = [];

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly session: () => Session | undefined,
    private readonly what: readonly What[],
  ) {
    host.addController(this);
  }

  hostConnected() {
    this.attach();
  }

  /** the session is a property, set only after the element is connected */
  hostUpdate() {
    if (this.offs.length === 0) this.attach();
  }

  hostDisconnected() {
    for (const off of this.offs) off();
    this.offs = [];
  }

  private attach() {
    const session = this.session();
    if (session) this.offs = this.what.map((w) => session.on(w, () => this.host.requestUpdate()));
  }
}
