/** The line to a simulation that may fail: a worker that throws, or is silent while something is asked of it, is ended, and another one is begun for what is asked next. */
import type { Clock } from './clock.ts';
import type { Port } from './port.ts';
import type { Ask, Tell } from './protocol.ts';

/** How often it is looked whether the worker has answered [ms]. */
const LOOK = 250;
/** An act that is unanswered for so long is told to be under way still [ms]: at the next look, so within a second. */
const LONG = 750;
/** So many looks without a sign of life, 15 s, are too many: on a machine with ten times too much to do, 1.5 s of work. Stop ends it at once. Looks are counted, not time: a page that slept has not waited. */
const SILENT_LOOKS = 60;
/** A worker that was asked to stop has so many looks for it, 1 s. */
const STOP_LOOKS = 4;

/** A worker as its watchdog holds it. */
export interface WorkerEnd<In, Out> extends Port<In, Out> {
  /** Calls when something was thrown in it, or its script cannot be had. */
  onError(does: () => void): void;
  terminate(): void;
}

/** How a worker came to its end: by an error, by its silence, or because it did not stop when it was asked to. */
export type WorkerFault = 'error' | 'silence' | 'stop';

/** What the watchdog tells of the worker. */
type WatchNews =
  /** the worker was ended, and the next has no bench; asks: what it had not answered, oldest first */
  | { readonly tell: 'ended'; readonly fault: WorkerFault; readonly asks: readonly Ask[] }
  /** something has been unanswered for long; or no longer */
  | { readonly tell: 'computing'; readonly computing: boolean };

/** What the page hears. */
export type Heard = Exclude<Tell, { readonly tell: 'done' | 'alive' }> | WatchNews;

export interface WatchdogSetting {
  start(): WorkerEnd<Tell, Ask>;
  readonly clock: Clock;
}

interface Unanswered {
  readonly ask: Ask;
  /** [ms] */
  readonly at: number;
}

export class Watchdog implements Port<Heard, Ask> {
  private readonly start: () => WorkerEnd<Tell, Ask>;
  private readonly clock: Clock;
  /** undefined: the last one was ended, and nothing has been asked since */
  private worker: WorkerEnd<Tell, Ask> | undefined;
  private hear: (message: Heard) => void = () => {};
  private unanswered: readonly Unanswered[] = [];
  /** looks since the last sign of life; undefined: the worker has given none yet, its script is still on its way */
  private silent: number | undefined;
  /** looks since it was asked to stop; undefined: it was not */
  private stopping: number | undefined;
  private computing = false;
  /** calls the next look off; undefined: none is due */
  private callOff: (() => void) | undefined;

  constructor({ start, clock }: WatchdogSetting) {
    [this.start, this.clock] = [start, clock];
    // its script is on its way before anything is asked
    this.worker = this.begin();
  }

  post(ask: Ask): void {
    if (ask.ask === 'stop') this.stopping ??= this.unanswered.length > 0 ? 0 : undefined;
    else this.unanswered = [...this.unanswered, { ask, at: this.clock.now() }];
    this.worker ??= this.begin();
    this.worker.post(ask);
    this.callOff ??= this.clock.after(LOOK, () => this.look());
  }

  listen(hear: (message: Heard) => void): void {
    this.hear = hear;
  }

  private begin(): WorkerEnd<Tell, Ask> {
    const worker = this.start();
    [this.silent, this.stopping] = [undefined, undefined];
    // what one that was ended had still to say is not heard
    worker.listen((message) => this.worker === worker && this.take(message));
    worker.onError(() => this.worker === worker && this.end('error'));
    return worker;
  }

  private take(message: Tell) {
    this.silent = 0;
    if (message.tell === 'alive') return;
    if (message.tell !== 'done') {
      this.hear(message);
      return;
    }
    this.unanswered = this.unanswered.slice(1);
    this.stopping = undefined;
    if (this.unanswered.length === 0) this.rest();
  }

  private rest() {
    this.callOff?.();
    this.callOff = undefined;
    this.stopping = undefined;
    this.tellComputing(false);
  }

  private look() {
    this.callOff = undefined;
    const [oldest] = this.unanswered;
    if (!oldest) return;
    if (this.silent !== undefined) this.silent += 1;
    if (this.stopping !== undefined) this.stopping += 1;
    if ((this.stopping ?? 0) >= STOP_LOOKS) this.end('stop');
    else if ((this.silent ?? 0) >= SILENT_LOOKS) this.end('silence');
    else {
      this.tellComputing(this.silent !== undefined && this.clock.now() - oldest.at >= LONG);
      this.callOff = this.clock.after(LOOK, () => this.look());
    }
  }

  private tellComputing(computing: boolean) {
    if (this.computing === computing) return;
    this.computing = computing;
    this.hear({ tell: 'computing', computing });
  }

  private end(fault: WorkerFault) {
    this.worker?.terminate();
    // the next is begun for what is asked next: one that cannot even begin is not begun for ever
    this.worker = undefined;
    const asks = this.unanswered.map(({ ask }) => ask);
    this.unanswered = [];
    this.rest();
    this.hear({ tell: 'ended', fault, asks });
  }
}
