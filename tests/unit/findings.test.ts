/** Every rule on its own benches, its words, the order of findings, and the rehearsal of a plan. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { RULES } from '../../sim-core/findings/catalogue.ts';
import type { Finding } from '../../sim-core/findings/finding.ts';
import type { Example } from '../../sim-core/findings/rule.ts';
import { makeScene } from '../../sim-core/findings/scene.ts';
import { findingsNow, plain, readBenchText, rehearse, SEVERITIES, type Simulation, sayFinding, simulate } from '../../sim-core/index.ts';
import { readSources } from '../support/sources.ts';

const codes = new Set(RULES.map((r) => r.code));

function read(text: string): Plan {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  return plan.value;
}

function play({ bench, script = [] }: Example): { sim: Simulation; plan: Plan } {
  const plan = read(bench);
  const made = simulate(plan, { bounce: false });
  if (!made.ok) throw new Error(made.failure.says);
  for (const acts of script) {
    for (const act of acts) {
      const begun = made.value.begin(act);
      if (!begun.ok) throw new Error(begun.failure.says);
    }
    made.value.rest();
  }
  return { sim: made.value, plan };
}

const wellSaid = (f: Finding, plan: Plan): string => {
  const text = plain(sayFinding(f, plan));
  expect(text).not.toMatch(/undefined|NaN|∞|\[object|null|--|\s\s|\s[.,)]/);
  for (const code of codes) expect(text).not.toContain(code);
  expect(text).toMatch(/^[A-Z0-9+−/].*\.$/);
  return text;
};

test('the code of every rule is the path of its file', () => {
  const files = readSources('sim-core').filter((s) => /^sim-core\/findings\/[^/]+\/[^/]+\.ts$/.test(s.path));
  const declared = files.map((s) => [s.path.replace(/^sim-core\/findings\/|\.ts$/g, ''), /code: '([^']+)'/.exec(s.text)?.[1]]);
  expect(declared.filter(([path, code]) => path !== code)).toEqual([]);
  expect(codes.size).toBe(files.length);
});

describe.each(RULES.map((rule) => [rule.code, rule] as const))('%s', (code, rule) => {
  const { bad } = rule;
  if ('none' in bad) return;

  test('is found on its bad bench, first of all at the thing it names', () => {
    const { sim, plan } = play(bad);
    const found = findingsNow(sim).filter((f) => f.code === code);
    expect(found.map((f) => f.at[0]?.id)).toContain(bad.points);
    for (const f of found) wellSaid(f, plan);
  });

  test('is not found on its good bench', () => {
    const { sim } = play(rule.good);
    expect(findingsNow(sim).filter((f) => f.code === code)).toEqual([]);
  });
});

test('a bench without an operating point says so, and where', () => {
  const { sim, plan } = play({ bench: 'B1 board-63\nPS1 bench-supply\nR1 resistor a1 a5\nW1 lead PS1.+ b1\nPS1 hands 1' });
  const rule = RULES.find((r) => r.code === 'bench/no-operating-point');
  if (rule?.reads !== 'moment') throw new Error('this rule reads the moment');
  expect(rule.look(makeScene(sim.circuit, sim.readings()))).toEqual([]);
  const lost = rule.look(
    makeScene(sim.circuit, { ...sim.readings(), unsolved: { net: sim.circuit.nets.ofStrip.get('B1/1a')?.index ?? -1 } }),
  );
  expect(lost[0]?.at[0]).toEqual({ kind: 'pin', id: 'PS1.+' });
  expect(plain(sayFinding({ code: rule.code, severity: rule.severity, ...lost[0]! }, plan))).toContain('the + terminal of PS1');
});
