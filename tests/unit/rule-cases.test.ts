/** What all rules together say of small benches, and nothing else: which finding, at what, with which figures; and what a bench next to it does not say. */
import { expect, test } from 'vitest';
import { findingsNow } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { CHIP_CASES } from '../support/chip-benches.ts';
import { CASES } from '../support/rule-benches.ts';
import { inShort } from '../support/said.ts';

test.each([...CASES, ...CHIP_CASES].map((c) => [c.says, c] as const))('%s', (_, { bench, acts = [], waits = 0, of = '', finds }) => {
  const sim = start(bench, { bounce: false });
  for (const act of acts) expect(sim.act(act).ok).toBe(true);
  if (waits > 0) sim.wait(waits);
  const said = findingsNow(sim).filter((f) => f.code.startsWith(of));
  expect(said.map((f) => inShort(f, sim.circuit.plan))).toEqual(finds);
});
