/** What all rules say of a running bench at this moment: what the wiring, the present voltages, the log of writes and the bytes show. */
import type { Plan } from '../../shared/plan.ts';
import type { Nets } from '../board/nets.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Simulation } from '../run/api.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Readings } from '../run/readout/readings.ts';
import type { Marginals } from '../tolerance/marginal.ts';
import { findingsOf } from './ask-rule.ts';
import { RULES } from './catalogue.ts';
import type { Finding } from './finding.ts';
import { merged, ranked } from './ranking.ts';
import { makeScene } from './rule-context.ts';

/** Ordered as `ranked` says. `readings`: those of this moment, if they are at hand. */
export function findingsNow(sim: Simulation, readings: Readings = sim.readings()): readonly Finding[] {
  const { circuit } = sim;
  const wanted = circuit.plan.wanted ? storedFindings(circuit, sim.plan().memories) : [];
  return ranked(merged([...wiringFindings(circuit), ...momentFindings(circuit, readings), ...logFindings(circuit, sim.events), ...wanted]));
}

const ofWiring = new WeakMap<Nets, readonly Finding[]>();

/** Asked once per wiring: what hands do to switches does not change it. */
export function wiringFindings(circuit: Circuit): readonly Finding[] {
  const before = ofWiring.get(circuit.nets);
  if (before) return before;
  const found = RULES.flatMap((rule) => (rule.reads === 'wiring' ? findingsOf(rule, rule.look(circuit)) : []));
  ofWiring.set(circuit.nets, found);
  return found;
}

export function momentFindings(circuit: Circuit, readings: Readings): readonly Finding[] {
  const scene = makeScene(circuit, readings);
  return RULES.flatMap((rule) => (rule.reads === 'moment' ? findingsOf(rule, rule.look(scene)) : []));
}

/** Slow: many benches are simulated for it. */
export const marginalFindings = (marginals: Marginals): readonly Finding[] =>
  RULES.flatMap((rule) => (rule.reads === 'marginal' ? findingsOf(rule, rule.look(marginals)) : []));

export const logFindings = (circuit: Circuit, events: readonly ChipEvent[]): readonly Finding[] =>
  events.length === 0 ? [] : RULES.flatMap((rule) => (rule.reads === 'log' ? findingsOf(rule, rule.look({ circuit, events })) : []));

export const storedFindings = (circuit: Circuit, memories: Plan['memories']): readonly Finding[] =>
  RULES.flatMap((rule) => (rule.reads === 'stored' ? findingsOf(rule, rule.look({ circuit, memories })) : []));
