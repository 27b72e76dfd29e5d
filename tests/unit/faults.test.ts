/** Every kind of mistake: it fits some bench, its change is one that the document takes, and taken back it leaves the plan as it was. */
import { describe, expect, test } from 'vitest';
import { readPlan } from '../../shared/read-plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { faultsOf } from '../../sim-core/faults/fault.ts';
import { faultBench } from '../../sim-core/faults/fault-bench.ts';
import { apply, invert, isKnownChange, proveTable } from '../../sim-core/index.ts';
import { buildCircuit } from '../../sim-core/run/circuit/circuit.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { diagnosisBenches } from '../support/diagnosis-benches.ts';

/** Of one kind on one bench so many are tried. */
const MOST = 1;
/** The bench with 2048 rows has thousands of wrong bits. */
const benches = diagnosisBenches()
  .filter(({ name }) => name !== 'buffered 11')
  .map(({ name, plan }) => {
    const bench = faultBench(plan);
    if (!bench.ok) throw new Error(`${name}: ${bench.failure.says}`);
    return { name, plan, bench: bench.value };
  });

describe('the sixteen benches', () => {
  test('show their tables', () => {
    for (const { name, plan } of benches) {
      const proof = proveTable(plan);
      expect(proof.ok && proof.value.right === proof.value.rows ? '' : name).toBe('');
    }
  });
});

describe('mistakes', () => {
  test('are of at least 36 kinds, each with a name of its own', () => {
    expect(new Set(FAULT_KINDS.map((k) => k.kind)).size).toBe(FAULT_KINDS.length);
    expect(FAULT_KINDS.length).toBeGreaterThanOrEqual(36);
  });

  test.each(FAULT_KINDS.map((k) => [k.kind, k] as const))('%s fits a bench, changes it, and can be taken back', (_, kind) => {
    const random = makeRandom(7);
    let tried = 0;
    for (const { plan, bench } of benches) {
      const found = faultsOf(bench, [kind]);
      expect(new Set(found.map((f) => f.id)).size).toBe(found.length);
      for (let n = 0; n < Math.min(MOST, found.length); n++) {
        const fault = found[Math.floor(random() * found.length)]!;
        const after = apply(plan, fault.change);
        expect(isKnownChange(fault.change)).toBe(true);
        expect(after).not.toEqual(plan);
        expect(buildCircuit(after).ok ? '' : fault.id).toBe('');
        const read = readPlan(JSON.stringify(after));
        expect(read.ok ? '' : read.failure.says).toBe('');
        expect(apply(after, invert(fault.change))).toEqual(plan);
        expect(fault.things.length).toBeGreaterThan(0);
        expect(fault.prior).toBeGreaterThan(0);
        tried += 1;
      }
    }
    expect(tried).toBeGreaterThan(0);
  });
});
