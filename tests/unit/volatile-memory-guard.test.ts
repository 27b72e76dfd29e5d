/** What a memory that forgets without its supply is not given while it has none; every other memory takes bytes as it stands. */
import { expect, test } from 'vitest';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { volatileMemoryRefusal } from '../../client/state/volatile-memory-guard.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { join } from '../../sim-core/document/changes.ts';
import { storing } from '../../sim-core/document/memory-writes.ts';
import { start } from '../support/bench.ts';

const answer = (kind: string, on: boolean, after: Record<string, string> | undefined) => {
  const greenhouse = demoPlan('greenhouse')!;
  const parts = greenhouse.parts.map((p) => (p.id === 'U1' ? { ...p, kind } : p));
  const sim = start({ ...greenhouse, parts, switches: { ...greenhouse.switches, PS1: [on] } });
  return volatileMemoryRefusal(join(storing(sim.plan(), 'U1', after)), makeBenchModel(sim.plan(), undefined), sim.readings());
};

test('bytes for a static RAM are refused while its supply is off, and only then', () => {
  expect(answer('static-ram-2kx8', false, { '000': '5A' })).toEqual({
    code: 'edit/no-supply',
    at: 'U1',
    says: 'U1 is volatile and has no supply now, so its bytes would be lost. Switch the supply on, then store them.',
  });
  expect(answer('static-ram-2kx8', true, { '000': '5A' })).toBeUndefined();
  expect(answer('static-ram-2kx8', false, undefined)).toBeUndefined();
  expect(answer('eeprom-2kx8', false, { '000': '5A' })).toBeUndefined();
});
