/** Plans of version 1: opened, they are the same circuits to the last digit, nothing they say is lost, and their LEDs are called LED1, LED2. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { printPlan } from '../../shared/print-plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { upgradePlan } from '../../shared/upgrade-plan.ts';
import { simulate } from '../../sim-core/index.ts';
import before from '../fixtures/voltages-v1.json' with { type: 'json' };
import { ROOT } from '../support/sources.ts';

const DIR = join(ROOT, 'tests/fixtures/plans-v1');
const old = readdirSync(DIR).map((file) => [file.replace('.plan.json', ''), readFileSync(join(DIR, file), 'utf8')] as const);

function opened(text: string): Plan {
  const read = readPlan(text);
  if (!read.ok) throw new Error(read.failure.says);
  return read.value;
}

interface Seen {
  readonly volts: readonly number[];
  readonly settings: readonly { readonly set: string | number; readonly volts: readonly number[] }[];
}

describe('the demonstrations as they were written in version 1', () => {
  test('are thirteen, each with its voltages', () => {
    expect(old.map(([id]) => id)).toEqual(Object.keys(before.plans));
    expect(old).toHaveLength(13);
  });

  /** what Newton's method and the blocks of a bench may differ by [V] */
  const SOLVED_TO = 1e-9;
  test.each(old)('%s opens, and has the voltages that it had', (id, text) => {
    const seen: Seen = before.plans[id as keyof typeof before.plans];
    const made = simulate(opened(text), { still: true, bounce: false });
    if (!made.ok) throw new Error(made.failure.says);
    const sim = made.value;
    const set = (part: string, pole: number, closed: boolean) =>
      expect(sim.act({ do: 'set', part, pole, closed })).toEqual({ ok: true, value: undefined });
    for (const { set: setting, volts } of seen.settings) {
      if (setting === 'supply on') set('PS1', 0, true);
      else if (typeof setting === 'number') for (let pole = 0; pole < 5; pole++) set('S1', pole, ((setting >> pole) & 1) === 1);
      else if (setting !== 'as it stands') {
        // from the fourth row of bits on, switches are closed on top of each other, which begins with all of them open
        if (seen.settings.some((s) => typeof s.set === 'number') && setting === 'S1.0')
          for (let pole = 0; pole < 5; pole++) set('S1', pole, false);
        const [part = '', pole] = setting.split('.');
        set(part, Number(pole), true);
      }
      const now = sim.readings().nets;
      expect(now).toHaveLength(volts.length);
      for (const [i, { volts: is }] of now.entries()) {
        const was = seen.volts[volts[i]!]!;
        expect(Math.abs(is - was), `${id}, ${setting}, net ${i}: ${is} V, not ${was} V`).toBeLessThanOrEqual(SOLVED_TO);
      }
    }
  });

  test.each(old)('%s: written and read again, it is the same plan', (_, text) => {
    const plan = opened(text);
    expect(readPlan(printPlan(plan))).toEqual({ ok: true, value: plan });
  });
});

describe('ids of LEDs', () => {
  const led = (id: string) => ({ id, kind: 'led', at: 'c1', to: 'c2' });
  const plan = (over: object) => ({
    format: 'lampwright-plan',
    version: 1,
    title: 'Old',
    boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }],
    parts: [],
    leads: [],
    memories: {},
    meters: [],
    notes: [],
    hands: {},
    ...over,
  });
  const ids = (...parts: object[]) => opened(JSON.stringify(plan({ parts }))).parts.map((p) => p.id);

  test('keep their numbers, other parts their ids', () => {
    expect(ids(led('D1'), led('L0'), { id: 'D2', kind: 'diode', at: 'd1', to: 'd5' }, led('alarm'), led('D7x'))).toEqual([
      'LED1',
      'LED0',
      'D2',
      'alarm',
      'D7x',
    ]);
  });

  test('where two would be called the same, or one as something else is, the later one takes the next free number', () => {
    expect(ids(led('D1'), led('L1'), led('D2'))).toEqual(['LED1', 'LED3', 'LED2']);
    expect(ids(led('D1'), { id: 'LED1', kind: 'resistor', at: 'd1', to: 'd5' })).toEqual(['LED2', 'LED1']);
    expect(ids(led('D123456789012345'))).toEqual(['LED1']);
  });

  test('are exchanged wherever the plan names them', () => {
    const upgraded = opened(
      JSON.stringify(
        plan({
          parts: [led('D1'), led('L2'), { id: 'D3', kind: 'diode', at: 'd1', to: 'd5', turn: 180 }, { ...led('D4'), turn: 0 }],
          meters: [
            { id: 'M1', measures: 'amps', leg: 'D1.1' },
            { id: 'M2', measures: 'amps', leg: 'D3.1' },
          ],
          wanted: {
            inputs: [{ name: 'hot', pin: 'U1.A0' }],
            outputs: [{ name: 'vent', pin: 'U1.D1', lamp: 'D1' }],
            rules: [],
            rows: [0, 1],
            free: [1, 0],
          },
          hands: { D1: [true], S1: [false] },
          notes: ['The lamp vent (D1) shows data pin D1. L2 is spare.', 'LED D1, diode D3, lamp L2'],
          proof: { date: '2026-01-31', by: '', rows: 2, of: '0'.repeat(64), stood: { S1: '-', D1: '1' } },
        }),
      ),
    );
    expect(upgraded).toMatchObject({
      parts: [{ id: 'LED1' }, { id: 'LED2' }, { id: 'D3', rotated: true }, { id: 'LED4', at: 'c1' }],
      meters: [{ leg: 'LED1.1' }, { leg: 'D3.1' }],
      wanted: { outputs: [{ pin: 'U1.D1', led: 'LED1' }], dontCare: [1, 0] },
      switches: { LED1: [true], S1: [false] },
      notes: ['The lamp vent (LED1) shows data pin D1. LED2 is spare.', 'LED1, diode D3, LED2'],
      proof: { fingerprint: '0'.repeat(64), switches: { S1: '-', LED1: '1' } },
    });
    expect(upgraded.parts[3]).not.toHaveProperty('rotated');
  });
});

/** Every value that a document holds, with the names on the way to it: 'parts 0 params ohms 330'. */
const leaves = (value: unknown, way = ''): string[] =>
  typeof value === 'object' && value !== null
    ? Object.entries(value).flatMap(([name, v]) => leaves(v, `${way} ${name}`))
    : [`${way} ${JSON.stringify(value)}`];

/** Version 2 said in the words of version 1, id by id: what the upgrade does, the other way round. */
function asVersion1(plan: Plan, from: { parts: readonly { id: string; kind: string }[] }): string[] {
  const back = new Map(plan.parts.map((p, i) => [p.id, from.parts[i]!.id]));
  const words = new Map([
    ['wires', 'leads'],
    ['switches', 'hands'],
    ['dontCare', 'free'],
    ['led', 'lamp'],
    ['fingerprint', 'of'],
  ]);
  return leaves(plan).map((leaf) =>
    leaf
      .replace(' version 2', ' version 1')
      .replace(/^ proof switches/, ' proof stood')
      .replace(' rotated true', ' turn 180')
      .replace(/^( parts (\d+) kind) .*/, (_, way: string, i: string) => `${way} ${JSON.stringify(from.parts[Number(i)]!.kind)}`)
      .split(' ')
      .map((w, i) => (i === 1 || i === 2 || (i === 4 && w === 'led') ? (words.get(w) ?? w) : w))
      .map((w) =>
        w.replace(/^("?)(\w+)(?=\.|"|$)/, (all, quote: string, id: string) =>
          /^(LED|D|L)\d+$/.test(id) ? quote + (back.get(id) ?? id) : all,
        ),
      )
      .join(' '),
  );
}

test('nothing that a plan of version 1 says is lost', () => {
  const id = fc.constantFrom('D0', 'D1', 'D2', 'L1', 'L2', 'LED1', 'LED2', 'R1', 'U1', 'S1');
  const leg = fc.tuple(id, fc.constantFrom('1', '2', '+')).map(([i, pin]) => `${i}.${pin}`);
  const point = fc.oneof(fc.constantFrom('a1', '+j2', 'B1:c3'), leg);
  const part = fc.record(
    {
      id,
      kind: fc.constantFrom('led', 'led', 'diode', 'lamp-bar', 'crystal-clock', 'dip-switch'),
      at: point,
      to: point,
      turn: fc.constant(180),
      label: fc.constantFrom('vent', ''),
    },
    { requiredKeys: ['id', 'kind'], noNullPrototype: true },
  );
  const document = fc.record(
    {
      format: fc.constant('lampwright-plan'),
      version: fc.constant(1),
      title: fc.constantFrom('Old'),
      boards: fc.constant([{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }]),
      parts: fc.uniqueArray(part, { selector: (p) => p.id, maxLength: 8 }),
      leads: fc.array(fc.record({ id: fc.constant('W1'), from: point, to: point, colour: fc.constant('red') }, { noNullPrototype: true }), {
        maxLength: 2,
      }),
      memories: fc.constantFrom({}, { U1: { '000': 'FF' } }),
      wanted: fc.record(
        {
          inputs: fc.constant([{ name: 'hot', pin: 'U1.A0' }]),
          outputs: fc.array(
            fc.record(
              { name: fc.constant('vent'), pin: fc.constant('U1.D0'), lamp: id },
              { requiredKeys: ['name', 'pin'], noNullPrototype: true },
            ),
            {
              minLength: 1,
              maxLength: 1,
            },
          ),
          rules: fc.constant([]),
          rows: fc.constant([0, 1]),
          free: fc.constant([1, 0]),
        },
        { requiredKeys: ['inputs', 'outputs', 'rules', 'rows'], noNullPrototype: true },
      ),
      proof: fc.record(
        {
          date: fc.constant('2026-01-31'),
          by: fc.constant('A'),
          rows: fc.constant(2),
          of: fc.constant('a'.repeat(64)),
          stood: fc.dictionary(id, fc.constant('1'), { noNullPrototype: true }),
        },
        { requiredKeys: ['date', 'by', 'rows', 'of'], noNullPrototype: true },
      ),
      meters: fc.array(fc.record({ id: fc.constant('M1'), measures: fc.constant('amps'), leg }, { noNullPrototype: true }), {
        maxLength: 1,
      }),
      notes: fc.constant(['One note']),
      hands: fc.dictionary(id, fc.array(fc.boolean(), { minLength: 1, maxLength: 2 }), { noNullPrototype: true }),
    },
    {
      requiredKeys: ['format', 'version', 'title', 'boards', 'parts', 'leads', 'memories', 'meters', 'notes', 'hands'],
      noNullPrototype: true,
    },
  );
  let renamed = 0;
  fc.assert(
    fc.property(document, (was) => {
      // an id that names nothing on the bench may be the new name of something that is there
      fc.pre(['LED1', 'LED2'].every((led) => was.parts.some((p) => p.id === led) || !JSON.stringify(was).includes(led)));
      const read = readPlan(JSON.stringify(was));
      if (!read.ok) throw new Error(read.failure.says);
      const is = read.value;
      if (is.parts.some((p, i) => p.id !== was.parts[i]?.id)) renamed++;
      expect(new Set([...is.parts, ...is.wires, ...is.boards].map((t) => t.id)).size).toBe(
        was.parts.length + was.leads.length > 0 ? new Set([...was.parts, ...was.leads, ...was.boards].map((t) => t.id)).size : 1,
      );
      expect(asVersion1(is, was).sort()).toEqual(leaves(was).sort());
    }),
    { numRuns: 300 },
  );
  expect(renamed).toBeGreaterThan(50);
});

test('a plan of version 2 is left as it is', () => {
  const plan = opened(old[0]![1]);
  expect(upgradePlan(plan)).toBe(plan);
});
