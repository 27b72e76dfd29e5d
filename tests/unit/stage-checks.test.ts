/** The checks at the end of a stage fail for the mistakes that are made in it, and pass on the bench that is wired right, whatever its parts' tolerances. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { buildCircuit, passes, stageChecks, usualCauses } from '../../sim-core/index.ts';
import { readCheck } from '../../sim-core/sheet/meter-reading.ts';
import { benchAfter, stagesOfThings } from '../../sim-core/sheet/stages.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { plantInStages } from '../support/stage-mistakes.ts';

const vane = demoPlan('wind-vane')!;

/** Checks that this bench, built as this plan, does not pass. */
function failing(meant: Plan, built: Plan): string[] {
  const [checks, circuit] = [stageChecks(meant), buildCircuit(meant)];
  if (!checks.ok || !circuit.ok) throw new Error('a bench that is no bench');
  const stages = stagesOfThings(circuit.value);
  return checks.value.flatMap((check) => {
    const reading = readCheck(benchAfter(built, stages, check.stage), check);
    return reading.ok && passes(check, reading.value) ? [] : [`${check.stage} ${check.about.what}`];
  });
}

const without = (id: string): Plan => ({
  ...vane,
  parts: vane.parts.filter((p) => p.id !== id),
  wires: vane.wires.filter((w) => w.id !== id),
});

describe('a bench that is wired right', () => {
  test.each(['wind-vane', 'greenhouse', 'adding-machine'])('%s passes every check', (id) => {
    expect(failing(demoPlan(id)!, demoPlan(id)!)).toEqual([]);
  });

  test('passes with resistors, capacitors and supply anywhere in their tolerance', () => {
    const random = makeRandom(5);
    const some = (value: number, percent: number) => value * (1 + ((2 * random() - 1) * percent) / 100);
    const built: Plan = {
      ...vane,
      parts: vane.parts.map((p) => {
        const { ohms, farads } = p.params ?? {};
        if (ohms !== undefined) return { ...p, params: { ...p.params, ohms: some(Number(ohms), 5) } };
        if (farads !== undefined) return { ...p, params: { ...p.params, farads: some(Number(farads), 10) } };
        return p.id === 'PS1' ? { ...p, params: { volts: some(5, 10) } } : p;
      }),
    };
    expect(failing(vane, built)).toEqual([]);
  });
});

describe('a usual mistake fails a check of its stage', () => {
  const swapped = (a: string, b: string): Plan => {
    const [one, other] = [vane.wires.find((w) => w.id === a)!, vane.wires.find((w) => w.id === b)!];
    return { ...vane, wires: vane.wires.map((w) => (w === one ? { ...w, from: other.from } : w === other ? { ...w, from: one.from } : w)) };
  };
  test.each<[string, Plan, string]>([
    ['two inputs exchanged', swapped('W44', 'W46'), 'inputs pole'],
    ['a switch left out', without('S1'), 'inputs pole'],
    ['a pull-down left out', without('R9'), 'inputs pole'],
    ['an enable not tied', without('W15'), 'memory tied'],
    ['an unused address pin not tied', without('W18'), 'memory tied'],
    ['a decoupling capacitor left out', without('C1'), 'memory decoupling'],
    [
      'an LED reversed',
      { ...vane, parts: vane.parts.map((p) => (p.id === 'LED3' ? { ...p, at: p.to!, to: p.at! } : p)) },
      'outputs output',
    ],
    ['an LED resistor left out', without('R3'), 'outputs value'],
    ['the pull-up of the write button left out', without('R30'), 'writing pole'],
    [
      'a chip in reverse, before power',
      { ...vane, parts: vane.parts.map((p) => (p.id === 'U2' ? { ...p, at: 'f29', rotated: true } : p)) },
      'chips leg',
    ],
  ])('%s', (_, built, check) => {
    expect(failing(vane, built)).toContain(check);
  });
});

describe('the usual causes of a check that fails', () => {
  const checks = stageChecks(vane);
  const open = (checks.ok ? checks.value : []).find((c) => c.about.what === 'pole' && c.about.name === 'A0' && !c.about.closed)!;
  test('name what undoes each, with what the meter shows then; what was read comes first', () => {
    const causes = usualCauses(vane, open, Number.POSITIVE_INFINITY);
    const all = causes.ok ? causes.value : [];
    expect(all.length).toBeGreaterThan(1);
    expect(all[0]).toMatchObject({ fits: true, shows: Number.POSITIVE_INFINITY });
    for (const { shows } of all) expect(passes(open, shows)).toBe(false);
    expect(all.map((c) => c.says).join(' ')).toMatch(/W46|R12/);
  });
  test('of half the resistance is not a wire that is missing', () => {
    const causes = usualCauses(vane, open, 5000);
    const [first] = causes.ok ? causes.value : [];
    expect(first).toMatchObject({ fits: true });
    expect(first!.shows as number).toBeGreaterThan(4400);
    expect(first!.shows as number).toBeLessThan(5600);
  });
});

test('of every kind of wiring mistake that leaves its parts whole, all planted are found, most in their own stage', () => {
  const kinds = FAULT_KINDS.filter((k) => k.of === 'wiring' && !/-dead$|-other-kind$/.test(k.kind));
  const all = plantInStages(vane, 2, 3, kinds);
  expect(all.length).toBeGreaterThan(50);
  expect(all.filter((m) => !m.caught).map((m) => m.id)).toEqual([]);
  expect(all.filter((m) => m.caught === m.stage).length / all.length).toBeGreaterThan(0.9);
});
