/** The page's side of the live bench: what stands, what it reads, what was said of it; and the few things that can be asked of it. */

import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  type Action,
  type Change,
  type Failure,
  type History,
  type MemoryPins,
  NO_HISTORY,
  type Readings,
  type Step,
  type WriteReport,
} from '../../sim-core/index.ts';
import type { PageClock } from '../worker/clock.ts';
import type { Port } from '../worker/port.ts';
import type { Ask, SaidFinding, SaidWhy, Tell } from '../worker/protocol.ts';
import { takeOut } from '../worker/shared-snapshot.ts';
import { type BenchModel, layoutOf, makeBenchModel } from './bench-model.ts';
import { makeEventEmitter } from './event-emitter.ts';
import { OptimisticEdits } from './optimistic-edits.ts';
import { makeThrottle } from './throttle.ts';
import { TraceStore } from './trace-store.ts';
import { volatileMemoryRefusal } from './volatile-memory-guard.ts';

/** What a session tells, by kind. */
interface News {
  model: BenchModel;
  /** another bench has taken the place of the one before, if there was one */
  opened: BenchModel;
  /** at once: for the drawing */
  readings: Readings;
  /** the same, after the drawing has been painted: for everything else */
  settled: Readings;
  findings: readonly SaidFinding[];
  written: readonly WriteReport[];
  why: SaidWhy;
  pins: readonly MemoryPins[];
  pace: number;
  refused: Failure;
  /** a change was made, taken back or made again, or another bench stands */
  history: History;
  /** something of the document is not as it was: an edit, a switch, a byte, a damage */
  changed: Plan;
}

export type SessionNews = keyof News;

/** A bench that is about to stand. */
interface Opening {
  readonly history: History;
  stands(is: boolean): void;
}

export interface SessionSetting {
  /** to the worker that runs the bench */
  readonly port: Port<Tell, Ask>;
  readonly clock: PageClock;
  /** memory shared with the worker, in which the readings are as well; undefined: none can be shared */
  readonly box?: SharedArrayBuffer | undefined;
}

export class Session {
  model: BenchModel | undefined;
  readings: Readings | undefined;
  findings: readonly SaidFinding[] = [];
  /** what the pins of the memories did around their last writes and reads */
  readonly recordings = new TraceStore((parts) => this.ask({ ask: 'watch', parts }));
  /** memories that hold a part of the wanted table, with what is on their pins */
  pins: readonly MemoryPins[] = [];
  /** simulated seconds a second */
  pace = 1;
  /** when a person last did something to the bench [ms] */
  touchedAt = 0;
  /** the writes of the last act that made any, oldest first */
  writes: readonly WriteReport[] = [];
  private readonly port: Port<Tell, Ask>;
  private readonly clock: PageClock;
  private readonly box: SharedArrayBuffer | undefined;
  private readonly events = makeEventEmitter<News>();
  /** What is told from now on; the answer ends the listening. */
  readonly on = this.events.on;
  private readonly say = this.events.say;
  private readonly edits = new OptimisticEdits(layoutOf, (change) => this.ask({ ask: 'edit', change }));
  /** what waits until the worker has answered all edits */
  private afterEdits: readonly (() => void)[] = [];
  /** benches that are about to stand, in order */
  private opening: readonly Opening[] = [];
  /** how often the worker has told of a bench: readings of an earlier one have other nets */
  private edition = 0;

  /** of the readings that were drawn last */
  private number = 0;
  private readonly settleSoon: (touchedAt: number) => void;

  constructor({ port, clock, box }: SessionSetting) {
    [this.port, this.clock, this.box] = [port, clock, box];
    this.settleSoon = makeThrottle(clock, () => {
      if (this.model && this.readings) this.say('settled', this.readings);
    });
    if (box) this.ask({ ask: 'share', box });
    port.listen((message) => this.hear(message));
  }

  /**
   * history: what was done to this plan before, of a bench that is taken up again. False: it was refused, and the one before still
   * stands. name: of the file that the text is from, if it is from one.
   */
  open(text: string, history: History = NO_HISTORY, name = ''): Promise<boolean> {
    this.edits.drop();
    return new Promise((stands) => {
      const go = () => {
        this.opening = [...this.opening, { history, stands }];
        this.ask({ ask: 'open', text, name });
      };
      // the last edit of the bench that stands is answered first, so that nothing of it is told once it has been put away
      if (this.edits.waiting) this.afterEdits = [...this.afterEdits, go];
      else go();
    });
  }
  act(act: Action) {
    this.touchedAt = this.clock.now();
    this.ask({ ask: 'act', act });
    this.clock.beforePaint(() => this.lookIntoBox());
  }
  /** One gesture, one change, one undo. What the bench does goes on. Answers why it cannot be, if it cannot. */
  edit(change: Change): Failure | undefined {
    const lost = this.model && this.readings && volatileMemoryRefusal(change, this.model, this.readings);
    if (lost) this.refuse(lost);
    else this.step(change);
    return lost;
  }
  undo() {
    this.step('undo');
  }
  redo() {
    this.step('redo');
  }
  get history(): History {
    return this.edits.shown?.history ?? NO_HISTORY;
  }
  /** what the memories hold now */
  get memories(): Plan['memories'] {
    return this.plan?.memories ?? {};
  }
  /** undefined: no LED is asked about any more */
  why(led: string | undefined) {
    this.ask({ ask: 'why', led });
  }
  /** the plan as it stands now, bytes written and switches set included */
  get plan(): Plan | undefined {
    return this.edits.shown?.plan;
  }
  refuse(failure: Failure) {
    this.say('refused', failure);
  }

  /** Shown at once; the worker follows. */
  private step(step: Step) {
    this.touchedAt = this.clock.now();
    const { history } = this;
    const done = this.edits.ask(step);
    const { plan } = this;
    if (!done.ok) this.say('refused', done.failure);
    if (!plan || this.history === history) return;
    this.show(plan);
    this.say('changed', plan);
  }

  /** The bench is shown as the edits have left it. */
  private follow() {
    const { plan, model: before } = this;
    if (!plan || !before) return;
    if (isSame(before.plan, plan)) this.model = { ...before, plan };
    else this.show(plan);
    this.say('changed', plan);
    if (this.edits.waiting) return;
    const waits = this.afterEdits;
    this.afterEdits = [];
    for (const go of waits) go();
  }

  private show(plan: Plan) {
    const before = this.model;
    const now = makeBenchModel(plan, before);
    this.model = now;
    this.recordings.stand(now);
    this.say('model', now);
    this.say('history', this.history);
  }

  private ask(message: Ask) {
    this.port.post(message);
  }

  private lookIntoBox() {
    const found = this.box && takeOut(this.box, this.number);
    if (found) this.draw(found);
  }

  /** Readings come by two ways; each is drawn once. */
  private draw({ number, edition, readings }: { readonly number: number; readonly edition: number; readonly readings: Readings }) {
    if (number <= this.number || edition !== this.edition || this.edits.waiting) return;
    this.number = number;
    this.readings = readings;
    this.say('readings', readings);
    this.settleSoon(this.touchedAt);
  }

  private hear(message: Tell) {
    switch (message.tell) {
      case 'readings':
        this.draw(message);
        break;
      case 'bench':
        this.stand(message.plan, message.after);
        break;
      case 'switches':
        this.edits.became((plan) => ({ ...plan, switches: message.switches }));
        this.follow();
        break;
      case 'pace':
        this.pace = message.pace;
        this.say('pace', message.pace);
        break;
      case 'findings':
        this.findings = message.findings;
        this.say('findings', message.findings);
        break;
      case 'written':
        this.edits.became(({ cells: _, ...plan }) => ({
          ...plan,
          memories: message.memories,
          ...(message.cells ? { cells: message.cells } : {}),
        }));
        if (message.reports.length > 0) this.writes = message.reports;
        this.say('written', message.reports);
        this.follow();
        break;
      case 'why':
        this.say('why', message.why);
        break;
      case 'refused':
        if (message.asked === 'edit') {
          this.edits.refused();
          this.follow();
        }
        if (message.asked === 'open') this.opens()?.stands(false);
        this.say('refused', message.failure);
        break;
      case 'traced':
        this.recordings.take(message.traces);
        break;
      case 'pins':
        if (sameValue(this.pins, message.pins)) break;
        this.pins = message.pins;
        this.say('pins', message.pins);
    }
  }

  private stand(plan: Plan, after: Extract<Tell, { tell: 'bench' }>['after']) {
    this.edition += 1;
    if (after === 'open') {
      this.writes = [];
      const opening = this.opens();
      this.edits.begin({ plan, history: opening?.history ?? NO_HISTORY });
      this.show(plan);
      if (this.model) this.say('opened', this.model);
      opening?.stands(true);
    } else {
      if (after === 'wear') this.edits.became(() => plan);
      else this.edits.made(after.made, plan);
      this.follow();
    }
  }

  /** the first of those that are about to stand, taken off */
  private opens(): Opening | undefined {
    const [first, ...others] = this.opening;
    this.opening = others;
    return first;
  }
}

/** Nothing that is drawn or written of it differs: only where switches stand, what memories hold, and how worn they are. */
function isSame(a: Plan, b: Plan): boolean {
  const told = ({ switches: _, memories: __, cells: ___, boards, parts, wires, meters, wanted, ...others }: Plan) =>
    [[boards, parts, wires, meters, wanted], others] as const;
  const [[lists, others], [otherLists, rest]] = [told(a), told(b)];
  return sameValue(others, rest) && lists.every((list, i) => list === otherLists[i]);
}
