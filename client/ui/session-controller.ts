/** Ties a Lit element to whatever tells news by kind: while it is on the page it is drawn again when one of these kinds is told. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** A teller of news; the answer of `on` ends the listening. */
interface NewsSource<Kind extends string> {
  on(kind: Kind, listener: () => void): () => void;
}

export class SessionController<Kind extends string> implements ReactiveController {
  private offs: Array<() => void> = [];

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly session: () => NewsSource<Kind> | undefined,
    private readonly kinds: readonly Kind[],
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
    if (session) this.offs = this.kinds.map((kind) => session.on(kind, () => this.host.requestUpdate()));
  }
}
