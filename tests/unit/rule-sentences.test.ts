/** Every rule's sentence to the letter, as a person reads it: on the bench that it is tried on, and on the benches beside it. */
import { describe, expect, test } from 'vitest';
import { RULES } from '../../sim-core/findings/catalogue.ts';
import { type Action, dryRun, type Finding, findingsNow, plain, type Simulation, sayFinding } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { CHIP_CASES } from '../support/chip-benches.ts';
import { CASES } from '../support/rule-benches.ts';
import { examplesOf } from '../support/rule-examples.ts';
import { SENTENCES } from '../support/rule-sentences.ts';

interface Played {
  readonly sim: Simulation;
  readonly findings: readonly Finding[];
}

function played(bench: string, script: readonly (readonly Action[])[], waits: number, holds = 0): Simulation {
  const sim = start(bench, { bounce: false });
  for (const acts of script) {
    for (const act of acts) sim.begin(act);
    sim.rest();
    if (holds > 0) sim.wait(holds);
  }
  if (waits > 0) sim.wait(waits);
  return sim;
}

/** What typical parts hide shows only in a check of the plan. */
function onBadBench(code: string): Played[] {
  const { bad } = examplesOf(code);
  if ('none' in bad) return [];
  const sim = played(bad.bench, bad.script ?? [], bad.waits ?? 0, bad.holds);
  const now = findingsNow(sim);
  if (now.some((f) => f.code === code)) return [{ sim, findings: now }];
  const checked = dryRun(sim.circuit.plan);
  return checked.ok ? [{ sim, findings: checked.value }] : [];
}

const besides: Played[] = [...CASES, ...CHIP_CASES].map(({ bench, acts = [], waits = 0, of = '' }) => {
  const sim = played(
    bench,
    acts.map((a) => [a]),
    waits,
  );
  return { sim, findings: findingsNow(sim).filter((f) => f.code.startsWith(of)) };
});

describe.each(RULES.map((r) => r.code))('%s', (code) => {
  test('says what is so, with its figure, limit and fix', () => {
    const said = [...onBadBench(code), ...besides].flatMap(({ sim, findings }) =>
      findings.filter((f) => f.code === code).map((f) => plain(sayFinding(f, sim.circuit.plan))),
    );
    expect([...new Set(said)]).toEqual(SENTENCES[code] ?? []);
  });
});

test('an address is told from a byte: it has 0x in every sentence, and no byte has', () => {
  const all = Object.values(SENTENCES).flat();
  expect(all.filter((s) => /\baddress 0x/.test(s)).length).toBeGreaterThan(5);
  expect(all.filter((s) => /\baddress [0-9A-F]{2,}\b|\bbyte 0x/.test(s))).toEqual([]);
});
