/** What is spoken when LEDs change: at once after a hand, now and then of itself, and once of what goes on changing. */
import { describe, expect, test } from 'vitest';
import { LiveAnnouncer } from '../../client/app/live-announcer.ts';
import { type BenchModel, makeBenchModel } from '../../client/state/bench-model.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Readings } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { ledPlan } from '../support/plans.ts';

const plan = ledPlan(330);
const named: Plan = { ...plan, parts: plan.parts.map((p) => (p.id === 'LED1' ? { ...p, label: 'porch' } : p)) };
const base = start(named).readings();
/** The LED lit or dark, and others like it. */
const seen = (lit: boolean, others: readonly string[] = [], on = true): Readings => ({
  ...base,
  supplies: base.supplies.map((s) => ({ ...s, on })),
  leds: [base.leds[0]!, ...others.map((led) => ({ ...base.leds[0]!, led }))].map(
    (l) => ({ ...l, brightness: lit ? 'lit' : 'dark' }) as const,
  ),
});
const LONG_AGO = -1e9;

function announcer(model: BenchModel = makeBenchModel(named)) {
  const it = new LiveAnnouncer();
  it.stand(model);
  it.see(seen(false), LONG_AGO, 0);
  return it;
}

describe('an LED that changes', () => {
  test('after a hand is spoken of at once, by its name', () => {
    const it = announcer();
    it.see(seen(true), 1000, 1010);
    expect(it.take(1000, 1010)).toBe('porch lit');
    expect(it.take(1000, 1020)).toBeUndefined();
  });

  test('of itself is spoken of no more often than every three seconds, as it is then', () => {
    const it = announcer();
    it.see(seen(true), LONG_AGO, 10_000);
    expect(it.take(LONG_AGO, 10_000)).toBe('porch lit');
    it.see(seen(false), LONG_AGO, 11_000);
    expect(it.take(LONG_AGO, 11_000)).toBeUndefined();
    expect(it.take(LONG_AGO, 12_900)).toBeUndefined();
    expect(it.take(LONG_AGO, 13_100)).toBe('porch dark');
  });

  test('and changes back before it is spoken of is passed over', () => {
    const it = announcer();
    it.see(seen(true), LONG_AGO, 10_000);
    it.see(seen(false), LONG_AGO, 10_050);
    expect(it.take(LONG_AGO, 20_000)).toBeUndefined();
  });

  test('again and again is said once to do so, and once more when it has stayed as it is', () => {
    const it = announcer();
    for (let i = 0; i < 8; i++) it.see(seen(i % 2 === 0), LONG_AGO, 10_000 + i * 500);
    expect(it.take(LONG_AGO, 14_000)).toBe('porch keeps changing');
    for (let i = 0; i < 8; i++) it.see(seen(i % 2 === 0), LONG_AGO, 14_000 + i * 500);
    expect(it.take(LONG_AGO, 18_000)).toBeUndefined();
    expect(it.take(LONG_AGO, 37_000)).toBeUndefined();
    expect(it.take(LONG_AGO, 38_000)).toBe('porch dark');
  });

  test('again and again begins to be told afresh with the supply', () => {
    const it = announcer();
    for (let i = 0; i < 8; i++) it.see(seen(i % 2 === 0), LONG_AGO, 10_000 + i * 500);
    it.see(seen(true, [], false), 14_000, 14_010);
    expect(it.take(14_000, 14_010)).toBe('porch lit');
  });

  test('with more than eight others is counted and not listed', () => {
    const others = Array.from({ length: 9 }, (_, i) => `X${i}`);
    const it = announcer();
    it.see(seen(false, others), LONG_AGO, 1);
    it.see(seen(true, others), 1000, 1010);
    expect(it.take(1000, 1010)).toBe('10 LEDs changed, 10 lit');
  });
});

describe('a part', () => {
  const burnt: Plan = {
    ...named,
    parts: named.parts.map((p) => (p.id === 'LED1' ? { ...p, damaged: { by: 'current', measured: 0.28, limit: 0.03 } } : p)),
  };
  test('that is damaged is spoken of at once, with what it bore; replaced, that is said', () => {
    const whole = makeBenchModel(named);
    const it = announcer(whole);
    const damaged = makeBenchModel(burnt, whole);
    it.stand(damaged);
    it.see({ ...base, leds: [] }, LONG_AGO, 10_000);
    expect(it.take(LONG_AGO, 10_000)).toMatch(/^porch is damaged: .*280 mA, limit 30 mA$/);
    it.stand(makeBenchModel(named, damaged));
    expect(it.take(LONG_AGO, 10_010)).toBe('porch is replaced');
  });

  test('of another bench is not compared with this one’s', () => {
    const it = announcer();
    it.stand(makeBenchModel({ ...burnt, boards: [...burnt.boards] }));
    expect(it.take(LONG_AGO, 10_000)).toBeUndefined();
  });
});
