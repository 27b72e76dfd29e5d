/** What the page speaks: what was done, and what changed on the bench, one sentence after the other. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../state/session.ts';
import { LiveAnnouncer } from './live-announcer.ts';

export class SpokenNews implements ReactiveController {
  private readonly announcer = new LiveAnnouncer();
  /** said last */
  news = '';

  constructor(
    private readonly host: ReactiveControllerHost,
    session: Session,
  ) {
    host.addController(this);
    session.on('model', (model) => this.announcer.stand(model));
    session.on('readings', (readings) => this.announcer.see(readings, session.touchedAt, performance.now()));
    session.on('settled', () => this.say(this.announcer.take(session.touchedAt, performance.now())));
    session.on('status', (status) => {
      if (status === 'computing') this.say('Still computing');
    });
  }

  hostConnected() {}

  /** Nothing: what was said last stays. */
  say(news: string | undefined) {
    if (!news) return;
    this.news = news;
    this.host.requestUpdate();
  }
}
