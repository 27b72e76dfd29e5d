/** The page's side of the live bench: what stands, what it reads, what was said of it; and the few things that can be asked of it. */
import type { Plan } from '../shared/plan.ts';
import { type Act, type Change, type Failure, type History, type MemoryPins, NO_HISTORY, type Readings, type WriteReport } from './core.ts';
import { makeEdits } from './edits.ts';
import { type Standing, stand } from './standing.ts';
import { makeRecordings } from './strip/recordings.ts';
import { makeMailbox, takeOut } from './worker/mailbox.ts';
import type { Ask, SaidFinding, SaidWhy, Tell } from './worker/protocol.ts';

interface Events {
  standing: Standing;
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

/** Pages and words follow a bench that changes by itself no more often than this [ms]; what follows a hand they follow at once. */
const SETTLE_EVERY = 250;
const AFTER_HAND = 300;

/** A bench that is about to stand. */
interface Opening {
  readonly history: History;
  stands(is: boolean): void;
}

export class Session {
  standing: Standing | undefined;
  readings: Readings | undefined;
  findings: readonly SaidFinding[] = [];
  /** what the memories hold now */
  memories: Plan['memories'] = {};
  /** what the pins of the memories did around their last writes and reads */
  readonly recordings = makeRecordings((parts) => this.ask({ ask: 'watch', parts }));
  /** memories that hold a part of the wanted table, with what is on their pins */
  pins: readonly MemoryPins[] = [];
  /** simulated seconds a second */
  pace = 1;
  /** when a person last did something to the bench [ms] */
  touchedAt = 0;
  /** the writes of the last act that made any, oldest first */
  writes: readonly WriteReport[] = [];
  private readonly worker = new Worker(new URL('./worker/simulation.ts', import.meta.url), { type: 'module', name: 'simulation' });
  private readonly ears: { [K in keyof Events]: Set<(value: Events[K]) => void> } = {
    standing: new Set(),
    readings: new Set(),
    settled: new Set(),
    findings: new Set(),
    written: new Set(),
    why: new Set(),
    pins: new Set(),
    pace: new Set(),
    refused: new Set(),
    history: new Set(),
    changed: new Set(),
  };
  private readonly edits = makeEdits((change) => this.ask({ ask: 'edit', change }));
  /** benches that are about to stand, in order */
  private opening: readonly Opening[] = [];
  private hands: Plan['hands'] = {};
  private cells: Plan['cells'];

  private readonly box = makeMailbox();
  /** of the readings that were drawn last */
  private number = 0;

  constructor() {
    if (this.box) this.ask({ ask: 'share', box: this.box });
    this.worker.addEventListener('message', (e: MessageEvent<Tell>) => this.hear(e.data));
  }

  on<K extends keyof Events>(what: K, ear: (value: Events[K]) => void): () => void {
    this.ears[what].add(ear);
    return () => this.ears[what].delete(ear);
  }

  /**
   * history: what was done to this plan before, of a bench that is taken up again. False: it was refused, and the one before still
   * stands. name: of the file that the text is from, if it is from one.
   */
  open(text: string, history: History = NO_HISTORY, name = ''): Promise<boolean> {
    this.edits.drop();
    return new Promise((stands) => {
      this.opening = [...this.opening, { history, stands }];
      this.ask({ ask: 'open', text, name });
    });
  }
  act(act: Act) {
    this.touchedAt = performance.now();
    this.ask({ ask: 'act', act });
    requestAnimationFrame(() => this.lookIntoBox());
  }
  /** One gesture, one change, one undo. What the bench does goes on. */
  edit(change: Change) {
    this.touchedAt = performance.now();
    this.edits.ask(change);
  }
  undo() {
    this.touchedAt = performance.now();
    this.edits.ask('undo');
  }
  redo() {
    this.touchedAt = performance.now();
    this.edits.ask('redo');
  }
  get history(): History {
    return this.edits.history;
  }
  /** undefined: no lamp is asked about any more */
  why(lamp: string | undefined) {
    this.ask({ ask: 'why', lamp });
  }
  /** the plan as it stands now, bytes written and switches set included */
  get plan(): Plan | undefined {
    if (!this.standing) return undefined;
    const { cells: _, ...plan } = this.standing.plan;
    return { ...plan, memories: this.memories, ...(this.cells ? { cells: this.cells } : {}), hands: this.hands };
  }
  refuse(failure: Failure) {
    this.say('refused', failure);
  }

  private ask(message: Ask) {
    this.worker.postMessage(message);
  }

  private say<K extends keyof Events>(what: K, value: Events[K]) {
    for (const ear of this.ears[what]) ear(value);
  }

  private settle() {
    const { standing, readings } = this;
    this.settling = false;
    if (!standing || !readings) return;
    this.settledAt = performance.now();
    this.say('settled', readings);
  }
  private settledAt = 0;
  private settling = false;

  private settleSoon() {
    const now = performance.now();
    const wait = now - this.touchedAt < AFTER_HAND ? 0 : this.settledAt + SETTLE_EVERY - now;
    if (wait <= 0) requestAnimationFrame(() => setTimeout(() => this.settle()));
    else if (!this.settling) {
      this.settling = true;
      setTimeout(() => this.settle(), wait);
    }
  }

  private lookIntoBox() {
    const found = this.box && takeOut(this.box, this.number);
    if (found) this.draw(found.number, found.readings);
  }

  /** Readings come by two ways; each is drawn once. */
  private draw(number: number, readings: Readings) {
    if (number <= this.number) return;
    this.number = number;
    this.readings = readings;
    this.say('readings', readings);
    this.settleSoon();
  }

  private hear(message: Tell) {
    switch (message.tell) {
      case 'readings':
        this.draw(message.number, message.readings);
        break;
      case 'standing':
        this.stand(message.plan, message.after);
        break;
      case 'hands':
        this.hands = message.hands;
        this.sayChanged();
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
        this.memories = message.memories;
        this.cells = message.cells;
        this.writes = message.reports;
        this.say('written', message.reports);
        this.sayChanged();
        break;
      case 'why':
        this.say('why', message.why);
        break;
      case 'refused':
        if (message.asked === 'edit') this.edits.refused();
        if (message.asked === 'open') this.opens()?.stands(false);
        this.say('refused', message.failure);
        break;
      case 'traced':
        this.recordings.take(message.traces);
        break;
      case 'pins':
        this.pins = message.pins;
        this.say('pins', message.pins);
    }
  }

  private stand(plan: Plan, after: Extract<Tell, { tell: 'standing' }>['after']) {
    this.standing = stand(plan, this.standing);
    this.memories = plan.memories;
    this.cells = plan.cells;
    this.hands = plan.hands;
    if (after === 'open') {
      this.writes = [];
      const opening = this.opens();
      this.edits.begin(opening?.history ?? NO_HISTORY);
      opening?.stands(true);
    } else if (after !== 'wear') this.edits.made(after.made);
    this.recordings.stand(this.standing);
    this.say('standing', this.standing);
    if (after !== 'wear') this.say('history', this.history);
    if (after !== 'open') this.sayChanged();
  }

  /** the first of those that are about to stand, taken off */
  private opens(): Opening | undefined {
    const [first, ...others] = this.opening;
    this.opening = others;
    return first;
  }

  private sayChanged() {
    if (this.plan) this.say('changed', this.plan);
  }
}
