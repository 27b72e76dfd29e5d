/** The worker's loop: one live simulation. Readings go out first, words after them, so that an LED never waits for a sentence. */

import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  type Action,
  type Change,
  calm,
  explainInTurns,
  type Finding,
  findingsInTurns,
  isBenchText,
  type Readings,
  readBenchText,
  readQuestion,
  rebase,
  type Simulation,
  siFormat,
  simulateAsFound,
  type Trace,
  tablePins,
  type WhyWords,
} from '../../sim-core/index.ts';
import type { Clock } from './clock.ts';
import { makeFindingTexts } from './finding-text.ts';
import type { Port } from './port.ts';
import type { Ask, SaidWhy, Tell } from './protocol.ts';
import { putIn } from './shared-snapshot.ts';
import { TableFindings } from './table-findings.ts';
import { SLICE, type Task, TaskQueue } from './task-queue.ts';
import { makeTimeScale } from './time-scaling.ts';

/** How long after a hand's act the bench is first looked at [s]: past every access time, before a contact's bounce ends. */
const FIRST_LOOK = 1e-6;
/** Words wait for the readings to be painted [ms]; of a bench that changes by itself they come no more often than this. */
const WORDS_AFTER = 30;
const WORDS_EVERY = 500;
/** How often a bench that changes by itself is looked at [ms], and how long that may take: less than a frame, so that no hand waits. */
const TICK = 50;
const TICK_WORK = 12;
/** So many turns of the simulator between two looks at the clock in a tick. */
const TICK_TURNS = 20;
/** So many rules or sentences between two looks at the clock while words are made. */
const WORD_TURNS = 10;
/** The chain of causes waits so long for the fix [ms], that both come at once; after that it goes out alone. Our choice. */
const CHAIN_WAITS = 60;
/** Of the time that a tick should have passed no smaller part is reckoned with. */
const LEAST_PART = 1e-3;
/** A bench that changes by itself stands still while its page sleeps: no more than this is made up for [ms]. */
const MADE_UP = 250;

export interface LoopSetting {
  readonly port: Port<Ask, Tell>;
  readonly clock: Clock;
}

/** Answers what comes by the port until the worker ends. */
export function createWorkerLoop(setting: LoopSetting): void {
  const loop = new WorkerLoop(setting);
  setting.port.listen((message) => loop.hear(message));
  setting.port.post({ tell: 'alive' });
}

class WorkerLoop {
  private readonly port: Port<Ask, Tell>;
  private readonly clock: Clock;
  private readonly tasks: TaskQueue;
  /** the bench; undefined before the first plan */
  private sim: Simulation | undefined;
  /** when the bench was last brought to the present [ms]; what a person ponders passes on the bench too */
  private lastAt = 0;
  /** so many of the bench's events have been told */
  private reported = 0;
  /** parts whose pins are recorded */
  private watched: readonly string[] = [];
  /** the recordings that were told last, by part */
  private readonly traced = new Map<string, Trace>();
  /** calls the next words off */
  private silence = () => {};
  /** calls the next tick off */
  private stopTicking = () => {};
  /** what is asked about: 'LED3', 'W7' */
  private asked: string | undefined;
  /** when words were last said [ms] */
  private spokenAt = Number.NEGATIVE_INFINITY;
  private readonly texts = makeFindingTexts();
  private readonly table = new TableFindings();
  /** a hand has done something since words were said */
  private handled = false;
  /** what the page knows the memories to hold */
  private known: unknown;
  private readonly pace = makeTimeScale((now) => this.tell({ tell: 'pace', pace: now }));
  /** memory in which readings are laid as well */
  private box: SharedArrayBuffer | undefined;
  /** counts the readings that were told */
  private number = 0;
  /** counts how often a bench has been told to stand */
  private edition = 0;

  constructor({ port, clock }: LoopSetting) {
    this.port = port;
    this.clock = clock;
    this.tasks = new TaskQueue(clock, () => this.tell({ tell: 'alive' }));
  }

  hear(message: Ask): void {
    if (message.ask === 'stop') this.tasks.stop();
    else this.tasks.do(() => this.dealWith(message));
  }

  private *dealWith(message: Exclude<Ask, { readonly ask: 'stop' }>): Task {
    const { sim } = this;
    switch (message.ask) {
      case 'share':
        this.box = message.box;
        break;
      case 'watch':
        this.watched = message.parts;
        sim?.watch(message.parts);
        break;
      case 'open':
        yield* this.open(message.text, message.name);
        break;
      case 'act':
        if (sim) yield* this.act(sim, message.act);
        break;
      case 'edit':
        if (sim) yield* this.edit(sim, message.change);
        break;
      case 'why':
        this.asked = message.about;
        if (sim) yield* this.answer(sim);
    }
    this.tell({ tell: 'done' });
  }

  private tell(message: Tell): void {
    if (message.tell === 'bench') {
      this.edition += 1;
      this.known = [message.plan.memories, message.plan.cells];
    }
    this.port.post(message);
  }

  private tellReadings(sim: Simulation): Readings {
    const readings = sim.readings();
    this.number += 1;
    const mail = { number: this.number, edition: this.edition, readings };
    if (this.box) putIn(this.box, mail);
    this.tell({ tell: 'readings', ...mail });
    return readings;
  }

  private *open(text: string, name: string): Task {
    this.handled = true;
    const read = isBenchText(name, text) ? readBenchText(text, (p) => readPlan(JSON.stringify(p))) : readPlan(text);
    const built = read.ok ? simulateAsFound(read.value) : read;
    if (!built.ok) {
      this.tell({ tell: 'refused', failure: built.failure, asked: 'open' });
      return;
    }
    this.beginHandling();
    const sim = built.value;
    yield* this.rest(sim, sim.now);
    this.sim = sim;
    sim.watch(this.watched);
    this.reported = 0;
    this.lastAt = this.clock.now();
    this.tell({ tell: 'bench', plan: sim.plan(), after: 'open' });
    this.show(sim, WORDS_AFTER);
    this.tell({ tell: 'pins', pins: tablePins(sim.circuit) });
  }

  private *edit(sim: Simulation, change: Change): Task {
    this.beginHandling();
    this.passTimeTo(sim);
    const from = sim.now;
    const made = rebase(sim.plan(), change);
    const begun = yield* this.tasks.through(sim.beginInSlices({ do: 'edit', change: made }));
    if (begun.ok) {
      this.tell({ tell: 'bench', plan: withoutRows(sim.plan()), after: { made } });
      yield* this.tasks.through(sim.waitInSlices(FIRST_LOOK));
      this.tellReadings(sim);
      this.tell({ tell: 'pins', pins: tablePins(sim.circuit) });
    } else this.tell({ tell: 'refused', failure: begun.failure, asked: 'edit' });
    yield* this.rest(sim, from);
    this.show(sim, WORDS_AFTER);
  }

  private *act(sim: Simulation, what: Action): Task {
    this.beginHandling();
    this.passTimeTo(sim);
    const from = sim.now;
    const begun = yield* this.tasks.through(sim.beginInSlices(what));
    if (begun.ok) {
      yield* this.tasks.through(sim.waitInSlices(FIRST_LOOK));
      // the page gets a copy that is its own
      this.tell({ tell: 'switches', switches: this.tellReadings(sim).switches as Plan['switches'] });
    } else this.tell({ tell: 'refused', failure: begun.failure, asked: 'act' });
    yield* this.rest(sim, from);
    this.show(sim, WORDS_AFTER);
  }

  /** What a hand does takes as long as it takes: nothing is told and no tick comes in the middle of it. */
  private beginHandling(): void {
    this.handled = true;
    this.stopTicking();
    this.silence();
  }

  /** Until nothing changes any more, or it is stopped; from: when what it follows from began [s]. */
  private *rest(sim: Simulation, from: number): Task {
    yield* this.tasks.through(sim.restInSlices());
    if (!this.tasks.stopped) return;
    const says = `Stopped ${siFormat(sim.now - from, 's')} after it began, before everything was at rest. The bench goes on from there.`;
    this.tell({ tell: 'refused', failure: { code: 'page/action-stopped', at: 'simulation', says }, asked: 'stop' });
  }

  private passTime(sim: Simulation): void {
    const at = this.clock.now();
    const past = at - this.lastAt;
    this.lastAt = at;
    if (!sim.pending) {
      sim.wait(past / 1000);
      return;
    }
    const [from, wanted] = [sim.now, (Math.min(MADE_UP, past) / 1000) * this.pace.now];
    const slices = sim.waitInSlices(wanted);
    let part = 1;
    while (!slices.go(TICK_TURNS)) {
      if (this.clock.now() - at < TICK_WORK) continue;
      part = Math.max(LEAST_PART, (sim.now - from) / wanted);
      slices.stop();
    }
    this.pace.took((this.clock.now() - at) / part, TICK_WORK);
  }

  /** Brings the bench to this moment; what has been damaged meanwhile is told first. True: something was. */
  private passTimeTo(sim: Simulation): boolean {
    const { circuit } = sim;
    this.passTime(sim);
    const worn = sim.circuit !== circuit;
    if (worn) this.tell({ tell: 'bench', plan: sim.plan(), after: 'wear' });
    return worn;
  }

  /** Clocks tick and overloads do damage without any action. */
  private keepTicking(sim: Simulation): void {
    this.stopTicking();
    if (sim.pending) this.stopTicking = this.clock.after(TICK, () => this.tick(sim));
    else this.pace.rest();
  }

  private tick(sim: Simulation): void {
    const worn = this.passTimeTo(sim);
    this.show(sim, worn ? WORDS_AFTER : Math.max(WORDS_AFTER, this.spokenAt + WORDS_EVERY - this.clock.now()));
  }

  /** wordsIn: when words are due [ms from now] */
  private show(sim: Simulation, wordsIn: number): void {
    this.tellReadings(sim);
    // on a bench that changes by itself there is no time to look at every byte each tick
    if (this.handled || sim.events.length > this.reported) this.tellWhatIsHeld(sim);
    this.keepTicking(sim);
    this.silence();
    this.silence = this.clock.after(wordsIn, () => this.speak(sim));
  }

  /** Bytes that were written, and those that a memory without supply has lost, of which nothing reports. */
  private tellWhatIsHeld(sim: Simulation): void {
    const reports = sim.events.slice(this.reported);
    this.reported = sim.events.length;
    const { memories, cells } = sim.plan();
    const held = [memories, cells];
    if (reports.length === 0 && sameValue(held, this.known)) return;
    this.known = held;
    this.tell({ tell: 'written', reports, memories, cells });
  }

  /** Words come in slices like what hands do: a hand's next act is heard between two, and then they are not said. */
  private speak(sim: Simulation, words: Task = this.words(sim), sliced = false): void {
    const from = this.clock.now();
    let over: boolean | undefined = false;
    for (let k = 1; !over; k++) {
      over = words.next().done;
      if (k % WORD_TURNS === 0 && this.clock.now() - from >= SLICE) break;
    }
    // what is talked about must not change meanwhile
    if (over && sliced) this.keepTicking(sim);
    if (over) return;
    this.stopTicking();
    this.silence = this.clock.after(0, () => this.speak(sim, words, true));
  }

  private *words(sim: Simulation): Task {
    this.spokenAt = this.clock.now();
    const fresh = sim.traces.filter((t) => this.traced.get(t.part) !== t);
    for (const trace of fresh) this.traced.set(trace.part, trace);
    if (fresh.length > 0) this.tell({ tell: 'traced', traces: fresh });
    const byItself = sim.pending && !this.handled;
    const found = yield* findingsInTurns(sim);
    const rows = this.table.known(sim);
    const tell = function* (this: WorkerLoop, all: readonly Finding[]): Task {
      this.tell({ tell: 'findings', findings: yield* this.texts.say(calm(sim.circuit, all), sim.circuit, byItself) });
    }.bind(this);
    yield* tell([...found, ...(rows ?? [])]);
    this.handled = false;
    if (!rows) {
      const turns = this.table.look(sim);
      let next = turns.next();
      // dozens of rows take as long as many rules
      for (; !next.done; next = turns.next()) for (let k = 0; k < WORD_TURNS; k++) yield;
      if (next.value.length > 0) yield* tell([...found, ...next.value]);
    }
    // an edit that is tried takes as long as many rules
    for (const turns = this.answer(sim); !turns.next().done; ) for (let k = 0; k < WORD_TURNS; k++) yield;
  }

  /** Why what is asked about is as it is, or the sentence that says what can be asked instead. */
  private *answer(sim: Simulation): Task {
    const about = this.asked;
    if (about === undefined) return;
    const { plan, leds } = sim.circuit;
    const question = readQuestion(about, { plan, leds: leds.map((l) => l.id) });
    const tell = (words: Omit<SaidWhy, 'about'>) => this.tell({ tell: 'why', why: { about, ...words } });
    if (!question.ok) {
      tell({ headline: [question.failure.says], note: '', steps: [] });
      return;
    }
    const from = this.clock.now();
    let chain: WhyWords | undefined;
    for (const turns = explainInTurns(sim, question.value); ; yield) {
      const { done, value } = turns.next();
      if (done) {
        tell(value);
        return;
      }
      chain = value ?? chain;
      if (!chain || this.clock.now() - from < CHAIN_WAITS) continue;
      tell({ ...chain, looking: true });
      chain = undefined;
    }
  }
}

/** The page makes the rows of the wanted table itself, and nothing but an edit changes them. */
const withoutRows = (plan: Plan): Plan => (plan.wanted ? { ...plan, wanted: { ...plan.wanted, rows: [], dontCare: [] } } : plan);
