/** The page's side of the live bench: what stands, what it reads, what was said of it; and the few things that can be asked of it. */

import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  type Action,
  apply,
  type Change,
  type Failure,
  type History,
  type MemoryPins,
  NO_HISTORY,
  type Readings,
  rebase,
  type Step,
  type WriteReport,
} from '../../sim-core/index.ts';
import type { PageClock } from '../worker/clock.ts';
import type { Port } from '../worker/port.ts';
import type { Ask, SaidFinding, SaidWhy, Tell } from '../worker/protocol.ts';
import { takeOut } from '../worker/shared-snapshot.ts';
import type { Heard, WorkerFault } from '../worker/watchdog.ts';
import { type BenchModel, layoutOf, makeBenchModel } from './bench-model.ts';
import { makeEventEmitter } from './event-emitter.ts';
import { OptimisticEdits } from './optimistic-edits.ts';
import { isEditing, READ_ONLY } from './read-only.ts';
import { NOT_SIMULATED, restartFailure } from './restart-text.ts';
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
  status: SimulationStatus;
  /** whether the bench that stands may be edited */
  readOnly: boolean;
  refused: Failure;
  /** a change was made, taken back or made again, or another bench stands */
  history: History;
  /** something of the document is not as it was: an edit, a switch, a byte, a damage */
  changed: Plan;
}

export type SessionNews = keyof News;

/** computing: something has been under way for the better part of a second. failed: this bench made its simulation fail twice and is not simulated any more. */
export type SimulationStatus = 'live' | 'computing' | 'failed';

/** A bench that is about to stand: another one, the same again in a worker that was begun for it, or the same with a change. */
type Opening =
  | { readonly as: 'another'; readonly history: History; stands(is: boolean): void }
  | { readonly as: 'restored' }
  | { readonly as: 'changed'; readonly change: Change };

export interface SessionSetting {
  /** to the worker that runs the bench */
  readonly port: Port<Heard, Ask>;
  readonly clock: PageClock;
  /** memory to share with one worker, in which the readings are as well; undefined: none can be shared */
  readonly makeBox?: () => SharedArrayBuffer | undefined;
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
  status: SimulationStatus = 'live';
  /** the bench that stands may be operated, not edited */
  readOnly = false;
  private readonly port: Port<Heard, Ask>;
  private readonly clock: PageClock;
  private readonly makeBox: () => SharedArrayBuffer | undefined;
  private box: SharedArrayBuffer | undefined;
  private readonly events = makeEventEmitter<News>();
  /** What is told from now on; the answer ends the listening. */
  readonly on = this.events.on;
  private readonly say = this.events.say;
  private readonly edits = new OptimisticEdits(layoutOf, (change, plan) => this.send(change, plan));
  /** somebody has asked for something since the last worker was begun */
  private asked = false;
  /** what holds for every bench, and is asked of each worker: by kind */
  private readonly lasting = new Map<Ask['ask'], Ask>();
  /** the worker knows nothing of that, and shares no memory */
  private bare = true;
  /** what waits until the worker has answered all edits */
  private afterEdits: readonly (() => void)[] = [];
  /** benches that are about to stand, in order */
  private opening: readonly Opening[] = [];
  /** how often the worker has told of a bench: readings of an earlier one have other nets */
  private edition = 0;

  /** of the readings that were drawn last */
  private number = 0;
  private readonly settleSoon: (touchedAt: number) => void;

  constructor({ port, clock, makeBox = () => undefined }: SessionSetting) {
    [this.port, this.clock, this.makeBox] = [port, clock, makeBox];
    this.settleSoon = makeThrottle(clock, () => {
      if (this.model && this.readings) this.say('settled', this.readings);
    });
    this.equip();
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
        this.asked = true;
        this.askToOpen({ as: 'another', history, stands }, text, name);
      };
      // the last edit of the bench that stands is answered first, so that nothing of it is told once it has been put away
      if (this.edits.waiting) this.afterEdits = [...this.afterEdits, go];
      else go();
    });
  }
  act(act: Action) {
    if (this.status === 'failed') return this.refuse(NOT_SIMULATED);
    if (this.readOnly && act.do === 'move-wire') return this.refuse(READ_ONLY);
    [this.touchedAt, this.asked] = [this.clock.now(), true];
    this.ask({ ask: 'act', act });
    this.clock.beforePaint(() => this.lookIntoBox());
  }
  /** One gesture, one change, one undo. What the bench does goes on. Answers why it cannot be, if it cannot. */
  edit(change: Change): Failure | undefined {
    const locked = this.readOnly && isEditing(change) ? READ_ONLY : undefined;
    const lost = locked ?? (this.model && this.readings && volatileMemoryRefusal(change, this.model, this.readings));
    if (lost) this.refuse(lost);
    else this.step(change);
    return lost;
  }
  setReadOnly(readOnly: boolean) {
    this.readOnly = readOnly;
    this.say('readOnly', readOnly);
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
  why(about: string | undefined) {
    this.ask({ ask: 'why', about });
  }
  /** the plan as it stands now, bytes written and switches set included */
  get plan(): Plan | undefined {
    return this.edits.shown?.plan;
  }
  refuse(failure: Failure) {
    this.say('refused', failure);
  }
  /** What is under way ends where the bench is, or, if the worker does not hear it, with its worker. */
  stop() {
    this.ask({ ask: 'stop' });
  }
  /** A bench that is not simulated any more is tried once more. */
  tryAgain() {
    if (this.status !== 'failed' || !this.plan) return;
    this.become('live');
    this.restore(this.plan);
  }

  /** Shown at once; the worker follows. */
  private step(step: Step) {
    [this.touchedAt, this.asked] = [this.clock.now(), true];
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
    const lasts = message.ask === 'why' || message.ask === 'watch';
    if (lasts) this.lasting.set(message.ask, message);
    if (!lasts || !this.bare) this.port.post(message);
  }

  private askToOpen(opening: Opening, text: string, name = '') {
    if (this.bare) this.equip();
    this.opening = [...this.opening, opening];
    this.ask({ ask: 'open', text, name });
  }

  private equip() {
    this.bare = false;
    this.box = this.makeBox();
    if (this.box) this.ask({ ask: 'share', box: this.box });
    for (const message of this.lasting.values()) this.ask(message);
  }

  /** One that is not simulated any more is opened with the change. */
  private send(change: Change, plan: Plan) {
    if (this.status !== 'failed') return this.ask({ ask: 'edit', change });
    const made = rebase(plan, change);
    this.askToOpen({ as: 'changed', change: made }, JSON.stringify(apply(plan, made)));
  }

  private become(status: SimulationStatus) {
    if (this.status === status) return;
    this.status = status;
    this.say('status', status);
  }

  private restore(plan: Plan) {
    this.askToOpen({ as: 'restored' }, JSON.stringify(plan));
  }

  /** Another worker has begun in the place of one that has ended; a bench that makes it fail again by itself is not restored another time. */
  private recover(fault: WorkerFault, asks: readonly Ask[]) {
    const [openings, again] = [this.opening, this.asked && this.status !== 'failed'];
    [this.opening, this.asked, this.bare, this.edition, this.number] = [[], false, true, 0, 0];
    this.edits.abandon();
    // the question may be what it fails at
    if (!again) this.lasting.delete('why');
    const { plan } = this;
    if (plan && again) this.restore(plan);
    else if (plan) this.become('failed');
    this.follow();
    // what was pressed is drawn as it stands
    if (this.readings) this.say('readings', this.readings);
    this.refuse(restartFailure(fault, asks, !plan ? 'none' : again ? 'restored' : 'failed'));
    for (const opening of openings) if (opening.as === 'another') opening.stands(false);
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

  private hear(message: Heard) {
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
        this.hearRefusal(message.asked);
        this.say('refused', message.failure);
        break;
      case 'ended':
        this.recover(message.fault, message.asks);
        break;
      case 'computing':
        if (this.status !== 'failed') this.become(message.computing ? 'computing' : 'live');
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

  private hearRefusal(asked: Ask['ask']) {
    const opening = asked === 'open' ? this.opens() : undefined;
    if (opening?.as === 'another') opening.stands(false);
    if (opening?.as === 'restored') this.become('failed');
    if (asked !== 'edit' && opening?.as !== 'changed') return;
    this.edits.refused();
    this.follow();
  }

  private stand(plan: Plan, after: Extract<Tell, { tell: 'bench' }>['after']) {
    this.edition += 1;
    const opening = after === 'open' ? this.opens() : undefined;
    if (opening && this.status === 'failed') this.become('live');
    if (opening?.as === 'another') {
      this.writes = [];
      this.edits.begin({ plan, history: opening.history });
      this.show(plan);
      if (this.model) this.say('opened', this.model);
      opening.stands(true);
      return;
    }
    if (opening?.as === 'changed') this.edits.made(opening.change, plan);
    else if (typeof after === 'object') this.edits.made(after.made, plan);
    else this.edits.became(() => plan);
    this.follow();
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
