/** The demonstrations keep their own margins: no LED lit only typically, no LED, pin or package over its limit, at both ends of everything that varies. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { composeAll } from '../../sim-core/demos/documents.ts';
import { MISTAKES } from '../../sim-core/demos/mistakes.ts';
import { apply, buildCircuit, dryRun, marginsOf, type Simulation, simulate } from '../../sim-core/index.ts';
import { blocksOf, switchedOn } from '../../sim-core/run/circuit/switch-settings.ts';
import { isLit, LED_STEPS } from '../../sim-core/run/readout/readings.ts';
import { askedAtRest } from '../../sim-core/tolerance/at-rest.ts';
import { specimensAt, type Tolerance, tolerancesOf } from '../../sim-core/tolerance/tolerances.ts';

const plans = composeAll();
const broken = new Set(MISTAKES.map((m) => m.plan));
/** None is excepted: no demonstration teaches with a marginal design. */
const KEEPING: readonly (readonly [string, Plan])[] = [
  ...Object.entries(plans).filter(([id]) => !broken.has(id)),
  ['greenhouse on cut rails', MISTAKES.find((m) => m.whole.boards.some((b) => b.splitRails))!.whole],
];

/** Less current everywhere: a low supply, large resistors, LEDs that drop much, outputs no stronger than guaranteed. */
const LESS: Readonly<Record<string, 'least' | 'most'>> = { volts: 'least', ohms: 'most', forward: 'most', drive: 'least' };
const valueAt = (s: Tolerance, more: boolean): number => {
  const end = LESS[s.figure];
  if (!end) return s.nominal;
  return more ? s[end === 'least' ? 'most' : 'least'] : s[end];
};

/** The bench as drawn, and with everything at the end that gives less current, or more. */
function specimens(plan: Plan): Record<'drawn' | 'less' | 'more', Simulation> {
  const built = buildCircuit(plan, 'typical');
  if (!built.ok) throw new Error(built.failure.says);
  const on = switchedOn(plan, built.value);
  const { placed } = built.value;
  const spreads = tolerancesOf(
    built.value,
    blocksOf(
      built.value,
      [...placed.values()].flatMap((p) => p.legs),
    ),
  );
  const at = (values?: readonly number[]) => {
    const made = simulate(on, { bounce: false, still: true, ...(values ? { overrides: specimensAt(spreads, values) } : {}) });
    if (!made.ok) throw new Error(made.failure.says);
    return made.value;
  };
  return { drawn: at(), less: at(spreads.map((s) => valueAt(s, false))), more: at(spreads.map((s) => valueAt(s, true))) };
}

/** Every row of the table, set at the switch that stands for its inputs. */
function* rows(plan: Plan, benches: readonly Simulation[]): Generator<number> {
  const inputs = plan.parts.find((p) => p.label === 'sensors' || p.label === 'inputs')!.id;
  for (let row = 0; row < plan.wanted!.rows.length; row++) {
    for (const bench of benches)
      for (const [pole, closed] of [...bench.plan().switches[inputs]!.entries()])
        if (closed !== (((row >> pole) & 1) === 1)) bench.act({ do: 'set', part: inputs, pole, closed: !closed });
    yield row;
  }
}

describe.each(KEEPING)('%s', (_, plan) => {
  test('lights no LED only typically and keeps every LED, pin and package within its limit', () => {
    const { drawn, less, more } = specimens(plan);
    const lit = new Set<string>();
    let judged = 0;
    for (const row of rows(plan, [drawn, less, more])) {
      for (const { led, brightness } of drawn.readings().leds) {
        if (!isLit(brightness)) continue;
        lit.add(led);
        expect(less.readings().leds.find((l) => l.led === led)!.amps, `${led} in row ${row}`).toBeGreaterThanOrEqual(LED_STEPS.lit);
      }
      const seen = { circuit: more.circuit, readings: more.readings(), events: [] };
      const currents = askedAtRest(seen).filter((a) => a.unit === 'A' && a.must === 'at-most');
      judged += currents.length;
      for (const a of currents) expect(a.read(seen), `${a.what} of ${a.at.id} in row ${row}`).toBeLessThanOrEqual(a.limit);
    }
    const wanted = plan.wanted!.outputs.filter((_, bit) => plan.wanted!.rows.some((byte) => (byte >> bit) & 1));
    expect(lit.size).toBeGreaterThanOrEqual(wanted.length);
    expect(judged).toBeGreaterThan(lit.size);
  });
});

test.each([plans.greenhouse!, plans['greenhouse-blank']!])('$title has nothing marginal, and no fault', (plan) => {
  const found = dryRun(plan);
  expect(found.ok && found.value.filter((f) => f.severity !== 'suggestion')).toEqual([]);
});

test('the margins of the flagship all hold in the worst case', () => {
  const margins = marginsOf(plans.greenhouse!, 'worst');
  if (!margins.ok) throw new Error(margins.failure.says);
  expect(margins.value.filter((m) => m.what === 'led-lit')).toHaveLength(8);
  expect(margins.value.filter((m) => m.what === 'package-current').length).toBeGreaterThan(0);
  expect(margins.value.filter((m) => !m.holds)).toEqual([]);
});

test.each(MISTAKES)('$plan is, its mistake aside, a bench whose margins hold', ({ plan: id, fix, whole }) => {
  const { parts, wires, memories } = apply(plans[id]!, fix);
  expect({ parts, wires, memories }).toEqual({ parts: whole.parts, wires: whole.wires, memories: whole.memories });
  expect(KEEPING.map(([, plan]) => plan.parts)).toContainEqual(whole.parts);
});
