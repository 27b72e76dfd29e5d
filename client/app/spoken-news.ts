/** What the page speaks: what was done, and what changed on the bench, one sentence after the other. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../state/session.ts';
import { LiveAnnouncer } from './live-announcer.ts';

/** A toast is shown so long, and so much longer for each letter [ms]; our choice. */
const [SHOWN, LETTER] = [2500, 50];

export class SpokenNews implements ReactiveController {
  private readonly announcer = new LiveAnnouncer();
  /** said last */
  news = '';
  /** what was done, shown for a while */
  toast = '';
  private ending: ReturnType<typeof setTimeout> | undefined;

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

  /** What somebody has done is shown too. */
  done(news: string) {
    if (!news) return;
    this.toast = news;
    clearTimeout(this.ending);
    this.ending = setTimeout(
      () => {
        this.toast = '';
        this.host.requestUpdate();
      },
      SHOWN + news.length * LETTER,
    );
    this.say(news);
  }

  /** Nothing: what was said last stays. */
  say(news: string | undefined) {
    if (!news) return;
    this.news = news;
    this.host.requestUpdate();
  }
}
