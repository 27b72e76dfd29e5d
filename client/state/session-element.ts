/** An element with a session: while it is on the page it is drawn again when the session tells what it hears. */
import type { ReactiveController } from 'lit';
import { property } from 'lit/decorators.js';
import { LightElement } from '../ui/light-element.ts';
import type { Session, SessionNews } from './session.ts';

export abstract class SessionElement extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  /** kinds of news upon which it is drawn again */
  protected abstract readonly hears: readonly SessionNews[];

  constructor() {
    super();
    this.addController(
      new Listening(
        () => this.session,
        () => this.hears,
        () => this.requestUpdate(),
      ),
    );
  }
}

class Listening implements ReactiveController {
  private offs: Array<() => void> = [];

  constructor(
    private readonly session: () => Session | undefined,
    private readonly kinds: () => readonly SessionNews[],
    private readonly redraw: () => void,
  ) {}

  hostConnected() {
    const session = this.session();
    if (session) this.offs = this.kinds().map((kind) => session.on(kind, this.redraw));
  }

  /** the session is a property, set only after the element is connected */
  hostUpdate() {
    if (this.offs.length === 0) this.hostConnected();
  }

  hostDisconnected() {
    for (const off of this.offs) off();
    this.offs = [];
  }
}
