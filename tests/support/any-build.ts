/** Tables by chance and the benches that the builder makes of them: built, started, written by hand as the card says, and judged. */
import fc from 'fast-check';
import { expect } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import {
  type BuildRequest,
  buildPlan,
  dryRun,
  moves,
  plain,
  programmingCard,
  type Simulation,
  sayFinding,
  simulate,
} from '../../sim-core/index.ts';

/** The bench of a request, or the test fails with the sentence that the builder gave. */
export const built = (wish: BuildRequest): Plan => {
  const made = buildPlan(wish);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};

/** The bench with its supply on. */
export function running(plan: Plan): Simulation {
  const supplyOn = Object.fromEntries(plan.parts.filter((p) => p.kind === 'bench-supply').map((p) => [p.id, [true]]));
  const made = simulate({ ...plan, switches: { ...plan.switches, ...supplyOn } });
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}

/** Follows the programming card as a person would, with contacts that chatter; returns the plan afterwards. */
export function writeByHand(plan: Plan): Plan {
  const cards = programmingCard(plan);
  if (!cards.ok) throw new Error(cards.failure.says);
  const sim = running(plan);
  sim.wait(0.1);
  for (const { memory, button, toWrite, toRead, steps } of cards.value) {
    for (const pole of moves(sim, toWrite)) sim.act({ do: 'set', ...pole });
    for (const { moves: flips } of steps) {
      for (const pole of flips) {
        sim.act({ do: 'set', ...pole });
        sim.wait(0.2);
      }
      sim.act({ do: 'press', part: button });
      sim.wait(0.2);
      sim.act({ do: 'release', part: button });
      sim.wait(0.2);
    }
    // a chattering contact may begin a second pulse that is too short: it writes the same byte again, or nothing
    expect(sim.events.filter((e) => e.part === memory && e.outcome === 'stored').length).toBeGreaterThanOrEqual(steps.length);
    for (const pole of moves(sim, toRead)) sim.act({ do: 'set', ...pole });
  }
  const after = sim.plan();
  const left = programmingCard(after);
  expect(left.ok && left.value.flatMap((c) => c.steps)).toEqual([]);
  return after;
}

/** Damage risks and faults, in words. */
export const bad = (plan: Plan): string[] => {
  const found = dryRun(plan);
  if (!found.ok) return [found.failure.says];
  return found.value.filter((f) => f.severity === 'damage-risk' || f.severity === 'fault').map((f) => plain(sayFinding(f, plan)));
};

/** A request for a table by chance, with so many inputs. */
export const aWish = (inputs: readonly [number, number], byHand: boolean, memories: readonly string[]): fc.Arbitrary<BuildRequest> =>
  fc
    .record({
      inputs: fc.integer({ min: inputs[0], max: inputs[1] }),
      outputs: fc.integer({ min: 1, max: 16 }),
      memory: fc.constantFrom(...memories),
      show: byHand ? fc.constantFrom('leds', 'digit', 'bar') : fc.constantFrom('leds', 'digit', 'bar', 'loads'),
      activeLow: fc.boolean(),
      seed: fc.integer(),
    })
    .map(
      ({ inputs: n, outputs: m, memory, show, activeLow, seed }): BuildRequest => ({
        title: 'Any table',
        inputs: Array.from({ length: n }, (_, i) => `in ${i}`),
        // a load is pulled on by a high pin, and some outputs want a current and a colour of their own
        outputs: Array.from({ length: m }, (_, i) => ({
          name: `out ${i}`,
          ...(activeLow && show !== 'loads' ? { activeLow } : {}),
          ...((seed >> i) & 1 ? { amps: 3e-3, colour: 'amber' as const } : {}),
        })),
        rows: Array.from({ length: 2 ** n }, (_, r) => (Math.imul(r + 1, 2654435761 ^ seed) >>> 9) & (2 ** m - 1)),
        memory,
        byHand,
        show,
        buffered: true,
        amps: 4e-3,
      }),
    );
