/** Answers to why on benches with one mistake each: no sentence may contradict the simulation, which is asked to show it. */
import fc from 'fast-check';
import { expect } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { faultsOf } from '../../sim-core/faults/fault.ts';
import { faultBench } from '../../sim-core/faults/fault-bench.ts';
import { apply, partlyHexAddress, type Simulation, simulate } from '../../sim-core/index.ts';
import type { Link, Reason } from '../../sim-core/why/answer.ts';
import { whyAbout } from '../../sim-core/why/answer-about.ts';
import { askWhy } from '../support/asked-why.ts';
import { start } from '../support/bench.ts';
import { diagnosisBenches } from '../support/diagnosis-benches.ts';
import { trial } from '../support/trial.ts';

/** One mistake of a kind by chance on a bench by chance, its switches by chance; some are healthy. */
const planted = fc
  .record({ bench: fc.nat(14), kind: fc.nat(FAULT_KINDS.length), which: fc.nat(1e6), row: fc.nat(2047) })
  .map(({ bench, kind, which, row }) => {
    const { name, plan } = diagnosisBenches().filter((b) => b.name !== 'buffered 11')[bench]!;
    const found = faultBench(plan);
    if (!found.ok) throw new Error(found.failure.says);
    const faults = kind < FAULT_KINDS.length ? faultsOf(found.value, [FAULT_KINDS[kind]!]) : [];
    const fault = faults[which % Math.max(1, faults.length)];
    return {
      says: `${name}: ${fault?.id ?? 'healthy'}, row ${row}`,
      plan: withRow(fault ? apply(plan, fault.change) : plan, row),
      kind: fault?.kind ?? 'healthy',
    };
  });

/** Supplies as they are, every other switch by a bit of the row. */
function withRow(plan: Plan, row: number): Plan {
  let bit = 0;
  const switches = Object.fromEntries(
    plan.parts
      .filter((p) => /switch/.test(p.kind))
      .map((p) => [p.id, Array.from({ length: Number(p.params?.poles ?? 1) }, () => ((row >> (bit++ % 11)) & 1) === 1)]),
  );
  return { ...plan, switches: { ...plan.switches, PS1: [true], ...switches } };
}

const levelOf = (sim: Simulation, id: string) => {
  const [part, pin] = id.split('.');
  return sim
    .readings()
    .chips.find((c) => c.part === part)
    ?.pins.find((p) => p.pin === pin)?.level;
};

/** These reasons say of a pin that it is the other level than the one it would need. */
const saysLevel = (sim: Simulation, pin: string, data: Reason['data']) => levelOf(sim, pin) === (data.needed === 'high' ? 'L' : 'H');

/** What the simulation says against a link; undefined: nothing. Links about which it is not asked here are not counted. */
function against(sim: Simulation, link: Link): string | undefined | 'not asked' {
  if ('severity' in link) return 'not asked';
  const { code, at, data } = link as Reason;
  const pin = at[0]?.id ?? '';
  switch (code) {
    case 'pin-reads':
      return levelOf(sim, pin) === data.level ? undefined : `it reads ${levelOf(sim, pin)}`;
    case 'pin-by-switch': {
      if (!saysLevel(sim, pin, data)) return `it reads ${levelOf(sim, pin)}`;
      const other = start(sim.plan(), { still: true });
      other.act({ do: 'set', part: at[1]!.id, pole: Number(data.pole) - 1, closed: data.closed === 0 });
      return levelOf(other, pin) === levelOf(sim, pin) ? `the other way it still reads ${levelOf(other, pin)}` : undefined;
    }
    case 'pin-pulled': {
      if (!saysLevel(sim, pin, data)) return `it reads ${levelOf(sim, pin)}`;
      if (at.length === 1 || data.alone === 0) return 'not asked';
      const pulls = new Set(at.slice(1).map((r) => r.id));
      const without = simulate({ ...sim.plan(), parts: sim.plan().parts.filter((p) => !pulls.has(p.id)) }, { still: true });
      if (!without.ok) return 'not asked';
      return levelOf(without.value, pin) === levelOf(sim, pin) ? `without it it still reads ${levelOf(sim, pin)}` : undefined;
    }
    case 'pin-tied': {
      const volts =
        sim
          .readings()
          .chips.find((c) => c.part === pin.split('.')[0])
          ?.pins.find((p) => p.pin === pin.split('.')[1])?.volts ?? 0;
      const supply = sim.readings().supplies[0]?.volts ?? 0;
      const rail = data.rail === 'high' ? supply : 0;
      const own = sim.circuit.chipById.get(pin.split('.')[0]!)!;
      const zero = sim.readings().nets[sim.circuit.netOf(own.ground.leg).index]!.volts;
      return Math.abs(volts + zero - rail) < 0.1 ? undefined : `it is at ${volts + zero} V`;
    }
    case 'pin-floats': {
      const leg = sim.circuit.layout.legs.find((l) => `${l.part.id}.${l.pin}` === pin)!;
      const { drive } = sim.readings().nets[sim.circuit.netOf(leg).index]!;
      return drive === 'floating' ? undefined : `its net is ${drive}`;
    }
    case 'stored-bit': {
      const state = sim.readings().chips.find((c) => c.part === at[0]!.id)?.state;
      return state?.address?.value === data.address && state?.data?.value === data.byte
        ? undefined
        : `it reads ${state?.data?.value} there`;
    }
    case 'row-now': {
      const address = sim.readings().chips.find((c) => c.part === pin)?.state.address;
      return address && partlyHexAddress(address) === data.address ? undefined : 'its pins read another address';
    }
    case 'row-bit':
    case 'row-bit-off': {
      const [part, pole] = at[1]!.id.split('.');
      if (sim.readings().switches[part!]?.[Number(pole) - 1] !== (data.closed === 1)) return 'the pole is the other way';
      return levelOf(sim, pin) === data.level ? undefined : `it reads ${levelOf(sim, pin)}`;
    }
    case 'wire-idle':
    case 'wire-carries':
      return Math.abs(Number(data.amps)) < 10 ? undefined : `${data.amps} A`;
    default:
      return 'not asked';
  }
}

trial(
  'no sentence about a pin, a wire or a row contradicts the simulation',
  { cases: planted, sample: 6, full: 1000 },
  ({ says, plan, kind }) => {
    const sim = simulate(plan, { still: true });
    if (!sim.ok) throw new Error(`${says}: ${sim.failure.says}`);
    const { circuit } = sim.value;
    const pins = circuit.chips.flatMap((c) => c.placed.legs.map((l) => `${l.part.id}.${l.pin}`));
    const wires = circuit.plan.wires.map((w) => w.id);
    let asked = 0;
    const rows = circuit.chips.flatMap((c) => (c.spec.word ? [{ about: 'row', id: c.placed.part.id } as const] : []));
    for (const question of [
      ...rows,
      ...pins.map((id) => ({ about: 'pin', id }) as const),
      ...wires.map((id) => ({ about: 'wire', id }) as const),
    ]) {
      askWhy(sim.value, question.about === 'row' ? `${question.id} row` : question.id);
      for (const link of whyAbout(sim.value, question)) {
        const wrong = against(sim.value, link);
        if (wrong === 'not asked') continue;
        asked++;
        expect(wrong === undefined ? '' : `${says}, why ${question.id}: ${link.code} ${link.at.map((r) => r.id)}, but ${wrong}`).toBe('');
      }
    }
    return { kind, sentences: asked };
  },
);
