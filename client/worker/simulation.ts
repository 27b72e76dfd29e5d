/** The worker: one live simulation. Readings go out first, words after them, so that a lamp never waits for a sentence. */

import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { apply, findingsNow, type Simulation, sayFinding, sayWhy, simulate, sweep, whyLamp } from '../../sim-core/index.ts';
import { putIn } from './mailbox.ts';
import { makePace } from './pace.ts';
import type { Ask, Swept, Tell } from './protocol.ts';

let sim: Simulation | undefined;
/** when the last act came [ms]; what a person ponders passes on the bench too */
let lastAt = 0;
let reported = 0;
let wordsDue: ReturnType<typeof setTimeout> | undefined;
let asked: string | undefined;
/** how long after a hand's act the bench is first looked at [s]: past every access time, before a contact has chattered out */
const FIRST_LOOK = 1e-6;
/** words wait for the readings to be painted [ms]; of a bench that changes by itself they come no more often than this */
const WORDS_AFTER = 30;
const WORDS_EVERY = 500;
let spokenAt = Number.NEGATIVE_INFINITY;

const tell = (message: Tell) => postMessage(message);

const pace = makePace((now) => tell({ tell: 'pace', pace: now }));

let box: SharedArrayBuffer | undefined;
let number = 0;

function tellReadings(now: Simulation): void {
  const readings = now.readings();
  number += 1;
  if (box) putIn(box, number, readings);
  tell({ tell: 'readings', number, readings });
}

function stand(plan: Plan, after: 'open' | 'edit', of: Ask['ask']): void {
  const built = simulate(plan);
  if (!built.ok) {
    tell({ tell: 'refused', failure: built.failure, asked: of });
    return;
  }
  sim = built.value;
  reported = 0;
  lastAt = performance.now();
  tell({ tell: 'standing', plan: sim.plan(), after });
  show(sim, WORDS_AFTER);
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

/** Clocks tick and overloads wear while nobody touches anything. */
function keepTicking(): void {
  clearInterval(ticking);
  if (!sim?.pending) {
    pace.rest();
    return;
  }
  ticking = setInterval(() => {
    if (!sim) return;
    const { circuit } = sim;
    passTime(sim);
    const worn = sim.circuit !== circuit;
    if (worn) tell({ tell: 'standing', plan: sim.plan(), after: 'wear' });
    show(sim, worn ? WORDS_AFTER : Math.max(WORDS_AFTER, spokenAt + WORDS_EVERY - performance.now()));
  }, TICK);
}

/** wordsIn: when words are due [ms from now] */
function show(now: Simulation, wordsIn: number): void {
  tellReadings(now);
  if (now.events.length > reported) {
    tell({ tell: 'written', reports: now.events.slice(reported), memories: now.plan().memories });
    reported = now.events.length;
  }
  keepTicking();
  clearTimeout(wordsDue);
  wordsDue = setTimeout(speak, wordsIn);
}

function speak(): void {
  if (!sim) return;
  spokenAt = performance.now();
  const { plan } = sim.circuit;
  tell({ tell: 'findings', findings: findingsNow(sim).map((f) => ({ code: f.code, severity: f.severity, says: sayFinding(f, plan) })) });
  if (asked !== undefined && mayBeAsked(sim, asked)) answer(sim, asked);
}

/** A lamp of this bench, or one of a damaged part, which is read no more. */
const mayBeAsked = (now: Simulation, lamp: string): boolean =>
  now.readings().lamps.some((l) => l.lamp === lamp) || now.circuit.plan.parts.some((p) => p.damaged && p.id === lamp.split('.')[0]);

function answer(now: Simulation, lamp: string): void {
  tell({ tell: 'why', why: { lamp, ...sayWhy(whyLamp(now, lamp), now.circuit.plan) } });
}

/** More rows than this are not gone through while a person waits. */
const MOST_INPUTS = 10;

function sweepTable(plan: Plan): Swept | undefined {
  const names = plan.wanted?.inputs.map((i) => i.pin) ?? [];
  if (names.length === 0 || names.length > MOST_INPUTS) return undefined;
  const swept = sweep(plan);
  if (!swept.ok || swept.value.inputs.map((i) => i.pin).join() !== names.join()) return undefined;
  const { inputs, rows } = swept.value;
  return { inputs, lamps: rows[0]?.lamps.map((l) => l.lamp) ?? [], rows: rows.map((r) => r.lamps.map((l) => l.glow)) };
}

function hear(message: Ask): void {
  if (message.ask === 'share') {
    box = message.box;
    return;
  }
  if (message.ask === 'open') {
    const read = readPlan(message.text);
    if (read.ok) stand(read.value, 'open', message.ask);
    else tell({ tell: 'refused', failure: read.failure, asked: message.ask });
    return;
  }
  if (!sim) return;
  if (message.ask === 'act') {
    const { circuit } = sim;
    passTime(sim);
    if (sim.circuit !== circuit) tell({ tell: 'standing', plan: sim.plan(), after: 'wear' });
    const begun = sim.begin(message.act);
    if (!begun.ok) tell({ tell: 'refused', failure: begun.failure, asked: message.ask });
    else if (message.act.do === 'move-lead') tell({ tell: 'standing', plan: sim.plan(), after: 'lead' });
    else {
      sim.wait(FIRST_LOOK);
      tellReadings(sim);
    }
    sim.rest();
    show(sim, WORDS_AFTER);
  } else if (message.ask === 'edit') stand(apply(sim.plan(), message.change), 'edit', message.ask);
  else if (message.ask === 'why') {
    asked = message.lamp;
    if (asked !== undefined && mayBeAsked(sim, asked)) answer(sim, asked);
  } else if (message.ask === 'sweep') tell({ tell: 'swept', swept: sweepTable(sim.plan()) });
  else tell({ tell: 'plan', plan: sim.plan() });
}

addEventListener('message', (e: MessageEvent<Ask>) => hear(e.data));
