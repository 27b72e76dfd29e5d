/** When the page Table goes through its rows again: whenever the LEDs may show something else, and not for what they cannot see. */
import { describe, expect, test } from 'vitest';
import { isSweptFor, sweptForOf } from '../../client/panel/table/swept-for.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { switchedInputs } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const plan = demoPlan('ferry-ramp')!;
const sim = start(plan);
const inputs = switchedInputs(sim);
const readings = sim.readings();
const [own] = inputs as [(typeof inputs)[number]];
const wanted = plan.wanted!;
const isSame = (after: Plan, closed: Plan['switches'] = {}) =>
  isSweptFor(sweptForOf(plan, readings), sweptForOf(after, { ...readings, switches: { ...readings.switches, ...closed } }), inputs);

describe('the rows', () => {
  test.each<[string, Plan, Plan['switches']?]>([
    ["an input's own switch", plan, { [own.part]: Array.from({ length: 8 }, (_, pole) => pole === own.pole) }],
    ['the supply', plan, { PS1: [!readings.switches.PS1?.[0]] }],
    ['a wanted cell', { ...plan, wanted: { ...wanted, rows: [1, ...wanted.rows.slice(1)] } }],
    ['wear', { ...plan, cells: { U1: { writes: { '000': [3, 1] } } } }],
    ['a note', { ...plan, notes: ['seen'] }],
  ])('are not gone through again for %s', (_, after, switches) => {
    expect(isSame(after, switches)).toBe(true);
  });
  test.each<[string, Plan, Plan['switches']?]>([
    ['a byte', { ...plan, memories: {} }],
    ['a wire', { ...plan, wires: plan.wires.slice(1) }],
    ['a bit that nobody can tell', { ...plan, cells: { U1: { uncertain: { '000': '01' } } } }],
    ['outputs that give no more than is guaranteed', { ...plan, outputs: 'guaranteed' }],
    ['wires with resistance', { ...plan, wiring: 'real' }],
    ['another LED for an output', { ...plan, wanted: { ...wanted, outputs: wanted.outputs.map((o) => ({ ...o, led: 'D1' })) } }],
    ['another switch', plan, { S99: [true] }],
  ])('are gone through again for %s', (_, after, switches) => {
    expect(isSame(after, switches)).toBe(false);
  });
});
