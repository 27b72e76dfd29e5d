/** The worker: one live simulation. Readings go out first, words after them, so that an LED never waits for a sentence. */
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import {
  type Change,
  findingsNow,
  isBenchText,
  type Readings,
  readBenchText,
  rebase,
  type Simulation,
  sayWhy,
  simulate,
  type Trace,
  tablePins,
  whyLed,
} from '../../sim-core/index.ts';
import type { Action } from '../core.ts';
import { makeFindingTexts } from './finding-text.ts';
import type { Ask, Tell } from './protocol.ts';
import { putIn } from './shared-snapshot.ts';
import { makeTimeScale } from './time-scaling.ts';

let sim: Simulation | undefined;
/** when the last act came [ms]; what a person ponders passes on the bench too */
let lastAt = 0;
let reported = 0;
let watched: readonly string[] = [];
const traced = new Map<string, Trace>();
let wordsDue: ReturnType<typeof setTimeout> | undefined;
let asked: string | undefined;
/** how long after a hand's act the bench is first looked at [s]: past every access time, before a contact has chattered out */
const FIRST_LOOK = 1e-6;
/** words wait for the readings to be painted [ms]; of a bench that changes by itself they come no more often than this */
const WORDS_AFTER = 30;
const WORDS_EVERY = 500;
let spokenAt = Number.NEGATIVE_INFINITY;
const sayings = makeFindingTexts();
/** a hand has done something since words were said */
let handled = false;

/** what the page knows the memories to hold */
let known = '';
const heldBy = ({ memories, cells }: Pick<Plan, 'memories' | 'cells'>): string => JSON.stringify([memories, cells]);

const tell = (message: Tell) => {
  if (message.tell === 'standing') {
    edition += 1;
    known = heldBy(message.plan);
  }
  postMessage(message);
};

const pace = makeTimeScale((now) => tell({ tell: 'pace', pace: now }));

let box: SharedArrayBuffer | undefined;
let number = 0;
let edition = 0;

function tellReadings(now: Simulation): Readings {
  const readings = now.readings();
  number += 1;
  const mail = { number, edition, readings };
  if (box) putIn(box, mail);
  tell({ tell: 'readings', ...mail });
  return readings;
}

function open(plan: Plan): void {
  const built = simulate(plan);
  if (!built.ok) {
    tell({ tell: 'refused', failure: built.failure, asked: 'open' });
    return;
  }
  sim = built.value;
  sim.watch(watched);
  reported = 0;
  lastAt = performance.now();
  tell({ tell: 'standing', plan: sim.plan(), after: 'open' });
  show(sim, WORDS_AFTER);
  tell({ tell: 'pins', pins: tablePins(sim.circuit) });
}

/** The page makes the rows of the wanted table itself, and nothing but an edit changes them. */
const withoutRows = (plan: Plan): Plan => (plan.wanted ? { ...plan, wanted: { ...plan.wanted, rows: [], free: [] } } : plan);

function edit(now: Simulation, change: Change): void {
  passTimeTo(now);
  const made = rebase(now.plan(), change);
  const begun = now.begin({ do: 'edit', change: made });
  if (begun.ok) {
    tell({ tell: 'standing', plan: withoutRows(now.plan()), after: { made } });
    now.wait(FIRST_LOOK);
    tellReadings(now);
    tell({ tell: 'pins', pins: tablePins(now.circuit) });
  } else tell({ tell: 'refused', failure: begun.failure, asked: 'edit' });
  now.rest();
  show(now, WORDS_AFTER);
}

function act(now: Simulation, what: Action): void {
  passTimeTo(now);
  const begun = now.begin(what);
  if (begun.ok) {
    now.wait(FIRST_LOOK);
    // the page gets a copy that is its own
    tell({ tell: 'hands', hands: tellReadings(now).hands as Plan['hands'] });
  } else tell({ tell: 'refused', failure: begun.failure, asked: 'act' });
  now.rest();
  show(now, WORDS_AFTER);
}

let ticking: ReturnType<typeof setInterval> | undefined;
/** how often a bench that changes by itself is looked at [ms], and how long that may take: less than a frame, so that no hand waits */
const TICK = 50;
const TICK_WORK = 12;
/** A bench that changes by itself stands still while its page sleeps: no more than this is made up for [ms]. */
const MADE_UP = 250;

function passTime(now: Simulation): void {
  const at = performance.now();
  const past = at - lastAt;
  lastAt = at;
  if (!now.pending) {
    now.wait(past / 1000);
    return;
  }
  now.wait((Math.min(MADE_UP, past) / 1000) * pace.now);
  pace.took(performance.now() - at, TICK_WORK);
}

/** Brings the bench to this moment; what has been damaged meanwhile is told first. */
function passTimeTo(now: Simulation): boolean {
  const { circuit } = now;
  passTime(now);
  const worn = now.circuit !== circuit;
  if (worn) tell({ tell: 'standing', plan: now.plan(), after: 'wear' });
  return worn;
}

/** Clocks tick and overloads wear while nobody touches anything. */
function keepTicking(): void {
  clearInterval(ticking);
  if (!sim?.pending) {
    pace.rest();
    return;
  }
  ticking = setInterval(() => {
    if (!sim) return;
    const worn = passTimeTo(sim);
    show(sim, worn ? WORDS_AFTER : Math.max(WORDS_AFTER, spokenAt + WORDS_EVERY - performance.now()));
  }, TICK);
}

/** Bytes that were written, and those that a memory without supply has lost, of which nothing reports. */
function tellWhatIsHeld(now: Simulation): void {
  const reports = now.events.slice(reported);
  reported = now.events.length;
  const { memories, cells } = now.plan();
  const held = heldBy({ memories, ...(cells ? { cells } : {}) });
  if (reports.length === 0 && held === known) return;
  known = held;
  tell({ tell: 'written', reports, memories, cells });
}

/** wordsIn: when words are due [ms from now] */
function show(now: Simulation, wordsIn: number): void {
  tellReadings(now);
  // on a bench that changes by itself there is no time to look at every byte each tick
  if (handled || now.events.length > reported) tellWhatIsHeld(now);
  keepTicking();
  clearTimeout(wordsDue);
  wordsDue = setTimeout(speak, wordsIn);
}

function tellTraces(now: Simulation): void {
  const fresh = now.traces.filter((t) => traced.get(t.part) !== t);
  for (const trace of fresh) traced.set(trace.part, trace);
  if (fresh.length > 0) tell({ tell: 'traced', traces: fresh });
}

function speak(): void {
  if (!sim) return;
  spokenAt = performance.now();
  tellTraces(sim);
  tell({ tell: 'findings', findings: sayings.say(findingsNow(sim), sim.circuit, sim.pending && !handled) });
  handled = false;
  if (asked !== undefined && mayBeAsked(sim, asked)) answer(sim, asked);
}

/** An LED of this bench, or one of a damaged part, which is read no more. */
const mayBeAsked = (now: Simulation, led: string): boolean =>
  now.readings().leds.some((l) => l.led === led) || now.circuit.plan.parts.some((p) => p.damaged && p.id === led.split('.')[0]);

function answer(now: Simulation, led: string): void {
  tell({ tell: 'why', why: { led, ...sayWhy(whyLed(now, led), now.circuit.plan) } });
}

function hear(message: Ask): void {
  if (message.ask === 'act' || message.ask === 'edit' || message.ask === 'open') handled = true;
  if (message.ask === 'share') {
    box = message.box;
    return;
  }
  if (message.ask === 'open') {
    const { text, name } = message;
    const read = isBenchText(name, text) ? readBenchText(text, (p) => readPlan(JSON.stringify(p))) : readPlan(text);
    if (read.ok) open(read.value);
    else tell({ tell: 'refused', failure: read.failure, asked: message.ask });
    return;
  }
  if (message.ask === 'watch') {
    watched = message.parts;
    sim?.watch(watched);
    return;
  }
  if (!sim) return;
  if (message.ask === 'act') act(sim, message.act);
  else if (message.ask === 'edit') edit(sim, message.change);
  else {
    asked = message.led;
    if (asked !== undefined && mayBeAsked(sim, asked)) answer(sim, asked);
  }
}

addEventListener('message', (e: MessageEvent<Ask>) => hear(e.data));
