/** What can be asked of the supply of each chip where wires and rails have resistance: how far it dips at the move of a switch that makes it dip most. */
import type { Plan } from '../../shared/plan.ts';
import type { Simulation } from '../run/api.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { blocksOf, isButton } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { type ExperimentReading, makeExperimentRunner } from './experiment.ts';
import type { MarginQuery } from './margin-query.ts';
import { tolerancesOf } from './tolerances.ts';

/** Poles beyond so many are not moved. */
const MOST_POLES = 12;

/** plan: supplies on. */
export function dipQuestions(plan: Plan, circuit: Circuit): MarginQuery[] {
  if (plan.wiring !== 'real') return [];
  const made = simulate(plan, { bounce: false });
  if (!made.ok) return [];
  const poles = circuit.contacts.filter((c) => !isButton(c)).slice(0, MOST_POLES);
  const worst = new Map<string, { readonly pole: ContactSite; readonly volts: number }>();
  for (const pole of poles) {
    const was = plan.switches[pole.placed.part.id]?.[pole.pole] ?? false;
    for (const closed of [!was, was]) {
      move(made.value, pole, closed);
      for (const { part, dip } of made.value.readings().chips)
        if (closed !== was && dip && dip.volts > (worst.get(part)?.volts ?? 0)) worst.set(part, { pole, volts: dip.volts });
    }
  }
  return circuit.chips.flatMap((chip) => {
    const found = worst.get(chip.placed.part.id);
    return found ? [ask(plan, circuit, chip, found.pole)] : [];
  });
}

const move = (sim: Simulation, { placed, pole }: ContactSite, closed: boolean) =>
  sim.act({ do: 'set', part: placed.part.id, pole, closed });

function ask(plan: Plan, circuit: Circuit, chip: ChipSite, pole: ContactSite): MarginQuery {
  const part = chip.placed.part.id;
  const trial = makeExperimentRunner({ plan, flip: { part: pole.placed.part.id, pole: pole.pole } });
  const reading = (seen: ExperimentReading) => seen.readings.chips.find((c) => c.part === part);
  const nominal = trial([], []);
  const stands = (nominal && reading(nominal)?.supply) ?? 0;
  const spreads = tolerancesOf(circuit, blocksOf(circuit, [...chip.outputs.map((o) => o.leg), ...pole.legs]));
  return {
    what: 'supply-dip',
    at: { kind: 'part', id: part },
    unit: 'V',
    must: 'at-most',
    limit: stands - chip.spec.supplyRange[0],
    source: 'derived: from where its supply stands to the least that its sheet holds for',
    read: (seen) => reading(seen)?.dip?.volts ?? 0,
    spreads,
    drawn: spreads,
    trial,
  };
}
