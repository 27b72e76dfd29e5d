/** The page's side of the live bench: what stands, what it reads, what was said of it; and the few things that can be asked of it. */
import type { Plan } from '../shared/plan.ts';
import type { Act, Change, Failure, Readings, WriteReport } from './core.ts';
import { type Standing, stand } from './standing.ts';
import { makeMailbox, takeOut } from './worker/mailbox.ts';
import type { Ask, SaidFinding, SaidWhy, Swept, Tell } from './worker/protocol.ts';

interface Events {
  standing: Standing;
  /** at once: for the drawing */
  readings: Readings;
  /** the same, after the drawing has been painted: for everything else */
  settled: Readings;
  findings: readonly SaidFinding[];
  written: readonly WriteReport[];
  why: SaidWhy;
  swept: Swept | undefined;
  pace: number;
  refused: Failure;
}

/** Pages and words follow a bench that changes by itself no more often than this [ms]; what follows a hand they follow at once. */
const SETTLE_EVERY = 250;
const AFTER_HAND = 300;

export class Session {
  standing: Standing | undefined;
  readings: Readings | undefined;
  findings: readonly SaidFinding[] = [];
  /** what the memories hold now */
  memories: Plan['memories'] = {};
  /** edits made to this plan and not taken back, newest last */
  edits: readonly Change[] = [];
  /** what every row of the wanted table shows; undefined until it was asked for, and where it cannot be told */
  swept: Swept | undefined;
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
    swept: new Set(),
    pace: new Set(),
    refused: new Set(),
  };
  private editing: { readonly change: Change; readonly way: 'on' | 'back' | 'meter' } | undefined;
  private readonly planWaits: Array<(plan: Plan) => void> = [];

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

  open(text: string) {
    this.ask({ ask: 'open', text });
  }
  act(act: Act) {
    this.touchedAt = performance.now();
    this.ask({ ask: 'act', act });
    requestAnimationFrame(() => this.lookIntoBox());
  }
  /** 'back': undoes the last edit instead of adding one; 'meter': a meter put down or taken off, nothing to take back */
  edit(change: Change, way: 'on' | 'back' | 'meter' = 'on') {
    this.touchedAt = performance.now();
    this.editing = { change, way };
    this.ask({ ask: 'edit', change });
  }
  /** undefined: no lamp is asked about any more */
  why(lamp: string | undefined) {
    this.ask({ ask: 'why', lamp });
  }
  sweep() {
    this.ask({ ask: 'sweep' });
  }
  /** the plan as it stands now, bytes written and switches set included */
  plan(): Promise<Plan> {
    return new Promise((done) => {
      this.planWaits.push(done);
      this.ask({ ask: 'plan' });
    });
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
        this.standing = stand(message.plan, this.standing);
        this.memories = message.plan.memories;
        if (message.after !== 'edit' || this.editing?.way !== 'meter') this.swept = undefined;
        if (message.after === 'open') [this.writes, this.edits] = [[], []];
        else if (message.after === 'edit' && this.editing) {
          this.edits = { on: [...this.edits, this.editing.change], back: this.edits.slice(0, -1), meter: this.edits }[this.editing.way];
          this.editing = undefined;
        }
        this.say('standing', this.standing);
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
        this.writes = message.reports;
        this.say('written', message.reports);
        break;
      case 'why':
        this.say('why', message.why);
        break;
      case 'refused':
        this.say('refused', message.failure);
        break;
      case 'swept':
        this.swept = message.swept;
        this.say('swept', message.swept);
        break;
      case 'plan':
        this.planWaits.shift()?.(message.plan);
    }
  }
}
