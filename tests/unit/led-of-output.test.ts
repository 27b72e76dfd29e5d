/** An output is shown by the LED that bears its name; another part of that name is not asked, and two LEDs of that name are refused. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { choicesOfBench, ledsOfOutput, proveTable } from '../../sim-core/index.ts';

const greenhouse = demoPlan('greenhouse')!;
const outputs = greenhouse.wanted!.outputs;
const [first] = outputs;
const isShown = (p: PlanPart) => p.kind === 'led' && p.label === first!.name;
const led = greenhouse.parts.find(isShown)!;
const resistor = greenhouse.parts.find((p) => p.kind === 'resistor')!;

/** The bench with its first output, and the LED that shows it, called so. */
const calledSo = (name: string): Plan => ({
  ...greenhouse,
  parts: greenhouse.parts.map((p) => (p === led ? { ...p, label: name } : p)),
  wanted: { ...greenhouse.wanted!, outputs: outputs.map((o, i) => (i === 0 ? { ...o, name } : o)) },
});
const rightOf = (plan: Plan): number => {
  const proof = proveTable(plan);
  if (!proof.ok) throw new Error(proof.failure.says);
  return proof.value.right;
};

test('the bench that is used here proves right, and its first output has no LED named in the table', () => {
  expect(first!.led).toBeUndefined();
  expect(rightOf(greenhouse)).toBe(greenhouse.wanted!.rows.length);
});

describe('an output with the name of another part', () => {
  test.each([
    ['a resistor', resistor.id],
    ['a chip', 'U1'],
    ['a switch', 'S1'],
  ])('%s is shown by the LED with that label', (_, name) => {
    const plan = calledSo(name);
    expect(plan.parts.filter((p) => (p.label ?? p.id) === name || p.id === name).length).toBeGreaterThan(1);
    expect(ledsOfOutput(plan, plan.wanted!.outputs[0]!)).toEqual([led.id]);
    expect(rightOf(plan)).toBe(plan.wanted!.rows.length);
    expect(choicesOfBench(plan).show).toBe('leds');
  });
  test('also where another part has that label, before the LED or after it', () => {
    const plan = calledSo('heat');
    const labelled = plan.parts.map((p) => (p.id === resistor.id ? { ...p, label: 'heat' } : p));
    expect(rightOf({ ...plan, parts: labelled })).toBe(plan.wanted!.rows.length);
    expect(rightOf({ ...plan, parts: labelled.toReversed() })).toBe(plan.wanted!.rows.length);
  });
});

describe('two LEDs with the name of one output', () => {
  const other = greenhouse.parts.find((p) => p.kind === 'led' && p !== led)!;
  const twice: Plan = { ...greenhouse, parts: greenhouse.parts.map((p) => (p === other ? { ...p, label: first!.name } : p)) };
  test('are refused with both', () => {
    const proof = proveTable(twice);
    expect(proof).toMatchObject({ ok: false, failure: { code: 'table/led-twice' } });
    expect(!proof.ok && proof.failure.says).toBe(
      `${led.id} and ${other.id} are both called ${first!.name}, so either could show this output. Give one of them another label.`,
    );
  });
  test('the table may say which one it is', () => {
    const named = {
      ...twice.wanted!,
      outputs: outputs.map((o, i) => ({ ...o, led: i === 0 ? led.id : greenhouse.parts.find((p) => p.label === o.name)!.id })),
    };
    expect(rightOf({ ...twice, wanted: named })).toBe(named.rows.length);
  });
});
