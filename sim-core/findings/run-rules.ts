/** What all rules say of a running bench at this moment: what the wiring, the present voltages, the log of writes and the bytes show. */
import type { Plan } from '../../shared/plan.ts';
import type { Nets } from '../board/nets.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Simulation } from '../run/api.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Readings } from '../run/readout/readings.ts';
import { allTurns } from '../run/slices.ts';
import type { SwitchedInput } from '../run/switched-inputs.ts';
import type { Marginals } from '../tolerance/marginal.ts';
import { findingsOf } from './ask-rule.ts';
import { calm } from './calm.ts';
import { RULES } from './catalogue.ts';
import type { Finding } from './finding.ts';
import type { ButtonPress } from './press.ts';
import { makeScene } from './rule-context.ts';
import { type TableAttempt, tryTable } from './table-check.ts';

/** Ordered as `calm` says. `readings`: those of this moment, if they are at hand. */
export const findingsNow = (sim: Simulation, readings: Readings = sim.readings()): readonly Finding[] =>
  allTurns(findingsInTurns(sim, readings));

/** The same one rule after the other: whoever asks has time for something else after each, as long as the bench stays as it is. */
export function* findingsInTurns(sim: Simulation, readings: Readings = sim.readings()): Generator<void, readonly Finding[]> {
  const { circuit } = sim;
  const wiring = yield* wiringInTurns(circuit);
  const moment = yield* momentInTurns(circuit, readings);
  const wanted = circuit.plan.wanted ? storedFindings(circuit, sim.plan().memories) : [];
  return calm(circuit, [...wiring, ...moment, ...logFindings(circuit, sim.events), ...wanted]);
}

const ofWiring = new WeakMap<Nets, readonly Finding[]>();

export const wiringFindings = (circuit: Circuit): readonly Finding[] => allTurns(wiringInTurns(circuit));
export const momentFindings = (circuit: Circuit, readings: Readings): readonly Finding[] => allTurns(momentInTurns(circuit, readings));

/** Asked once per wiring: what hands do to switches does not change it. */
function* wiringInTurns(circuit: Circuit): Generator<void, readonly Finding[]> {
  const before = ofWiring.get(circuit.nets);
  if (before) return before;
  const found: Finding[] = [];
  for (const rule of RULES)
    if (rule.reads === 'wiring') {
      found.push(...findingsOf(rule, rule.look(circuit)));
      yield;
    }
  ofWiring.set(circuit.nets, found);
  return found;
}

function* momentInTurns(circuit: Circuit, readings: Readings): Generator<void, readonly Finding[]> {
  const scene = makeScene(circuit, readings);
  const found: Finding[] = [];
  for (const rule of RULES)
    if (rule.reads === 'moment') {
      found.push(...findingsOf(rule, rule.look(scene)));
      yield;
    }
  return found;
}

export const tableFindings = (trial: TableAttempt): readonly Finding[] =>
  RULES.flatMap((rule) => (rule.reads === 'table' ? findingsOf(rule, rule.look(trial)) : []));

/** What the table's rows say of this bench as it stands, and the poles that set its inputs, which have no part in it. Yields every few dozen rows. */
export function* tableInTurns(sim: Simulation): Generator<void, TableSaid> {
  const trial = yield* tryTable(sim.circuit, sim.plan());
  return { findings: trial ? tableFindings(trial) : [], inputs: trial && 'proof' in trial ? trial.proof.inputs : [] };
}

/** What trying a table's rows said. */
export interface TableSaid {
  readonly findings: readonly Finding[];
  readonly inputs: readonly Pick<SwitchedInput, 'part' | 'pole'>[];
}

export const pressFindings = (press: ButtonPress): readonly Finding[] =>
  RULES.flatMap((rule) => (rule.reads === 'press' ? findingsOf(rule, rule.look(press)) : []));

/** Slow: many benches are simulated for it. */
export const marginalFindings = (marginals: Marginals): readonly Finding[] =>
  RULES.flatMap((rule) => (rule.reads === 'marginal' ? findingsOf(rule, rule.look(marginals)) : []));

export const logFindings = (circuit: Circuit, events: readonly ChipEvent[]): readonly Finding[] =>
  events.length === 0 ? [] : RULES.flatMap((rule) => (rule.reads === 'log' ? findingsOf(rule, rule.look({ circuit, events })) : []));

export const storedFindings = (circuit: Circuit, memories: Plan['memories']): readonly Finding[] =>
  RULES.flatMap((rule) => (rule.reads === 'stored' ? findingsOf(rule, rule.look({ circuit, memories })) : []));
