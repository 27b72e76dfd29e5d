/** Every cure made on the bad bench of its rule: the finding is gone, nothing worse has come, and taking it back leads to the same bench. */
import { describe, expect, test } from 'vitest';
import { findingsOf } from '../../sim-core/findings/ask-rule.ts';
import { RULES } from '../../sim-core/findings/catalogue.ts';
import type { Example } from '../../sim-core/findings/example-benches.ts';
import { inputFloating } from '../../sim-core/findings/rules/input/floating.ts';
import {
  apply,
  type Finding,
  findingsNow,
  fixesFor,
  fixText,
  invert,
  readBenchText,
  SEVERITIES,
  type Simulation,
  simulate,
} from '../../sim-core/index.ts';
import { examplesOf } from '../support/rule-examples.ts';

function stand({ bench, script = [] }: Example): Simulation {
  const plan = readBenchText(bench);
  if (!plan.ok) throw new Error(plan.failure.says);
  const sim = simulate(plan.value, { bounce: false });
  if (!sim.ok) throw new Error(sim.failure.says);
  for (const act of script.flat()) sim.value.act(act);
  return sim.value;
}

const called = (f: Finding) => `${f.code} ${f.at[0]?.id}`;

/** The findings that a bench has after a cure and had not before, at least as bad as the one that was cured. */
function worse(before: readonly Finding[], after: readonly Finding[], cured: Finding): string[] {
  const known = new Set(before.map(called));
  return after.filter((f) => !known.has(called(f)) && SEVERITIES.indexOf(f.severity) <= SEVERITIES.indexOf(cured.severity)).map(called);
}

/** What else a bad bench needs, so that nothing shows only once it is cured: a chip without its supply has no floating pins. */
const ALSO: Readonly<Record<string, string>> = { 'chip/no-supply': '\nwire WWE from j15 to +j9\nwire WOE from j16 to -j9' };

const mending = RULES.filter((rule) => rule.fixes !== undefined);
const cured = mending.flatMap(({ code }) => {
  const { bad } = examplesOf(code);
  return 'points' in bad ? [[code, { ...bad, bench: `${bad.bench}${ALSO[code] ?? ''}` }] as const] : [];
});

test('every cure is of a rule whose bad bench shows it', () => {
  expect(cured.length).toBe(mending.length);
  expect(cured.length).toBe(16);
});

describe.each(cured)('%s', (code, bad) => {
  test('each cure that is offered fixes it, brings nothing as bad, and can be undone', () => {
    const before = stand(bad);
    const found = findingsNow(before).find((f) => f.code === code && f.at[0]?.id === bad.points);
    if (!found) throw new Error(`${code} is not found on its bad bench`);
    const cures = fixesFor(found, before.circuit);
    expect(cures.length).toBeGreaterThan(0);
    for (const cure of cures) {
      const sim = stand(bad);
      const [was, all] = [sim.plan(), findingsNow(sim)];
      expect(invert(invert(cure.change))).toEqual(cure.change);
      expect(apply(apply(was, cure.change), invert(cure.change))).toEqual(was);
      const done = sim.act({ do: 'edit', change: cure.change });
      expect(done.ok, fixText(cure, was)).toBe(true);
      const now = findingsNow(sim);
      expect(now.map(called), fixText(cure, was)).not.toContain(called(found));
      expect(worse(all, now, found), fixText(cure, was)).toEqual([]);
      expect(fixText(cure, was)).toMatch(/^[A-Z](?:[^.]|\.\d)*$/);
    }
  });
});

test('a cure says exactly what it will do', () => {
  const sim = stand({
    bench:
      'board-63 B1\nbench-supply PS1 5\nwire WP from PS1.+ to +j1\nwire WN from PS1.- to -j1\nled LED1 from a10 to a14\nwire W1 from b10 to +j3\nwire W2 from b14 to -j3',
  });
  const [found] = findingsNow(sim);
  const says = fixesFor(found!, sim.circuit).map((c) => fixText(c, sim.plan()));
  expect(says).toEqual([expect.stringMatching(/^Add \d+ Ω in series with LED1$/)]);
});

test('where the row of a floating pin is full and no hole is free, nothing is offered', () => {
  const wires = ['a', 'b', 'c', 'd'].map((c, i) => `wire WF${i} from ${c}5 to ${c}${50 + i}`).join('\n');
  const pin = { kind: 'pin', id: 'R9.1' } as const;
  const figures = { measured: 1e12, limit: 1e5, leakage: 1e-5, volts: 0, vil: 0.8, vih: 2, cure: 1e4, drift: 0.1, high: false };
  const sim = stand({ bench: `board-63 B1\nbench-supply PS1 5\nresistor R9 1k from e5 to f5\n${wires}` });
  const [floating] = findingsOf(inputFloating, [{ pin, ...figures }]);
  expect(fixesFor(floating!, sim.circuit)).toEqual([]);
});
