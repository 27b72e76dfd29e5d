/** What a memory's cells are is in the plan: a bench that is saved and opened again is the same, bit for bit, and goes on as it would have. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { replacing, storing } from '../../sim-core/document/memory-writes.ts';
import { rebase } from '../../sim-core/document/rebase.ts';
import { apply, findingsNow, invert, type Simulation } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { start } from '../support/bench.ts';
import { kindOf, runOn, runVector } from '../support/part-bench.ts';
import type { Vector, VectorStep } from '../vectors/vector.ts';

type Random = () => number;
const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
const whole = (random: Random, beyond: number) => Math.floor(random() * beyond);
/** few addresses, so that they are met again */
const address = (random: Random) => pick(random, [0, 1, 2, 3, 0x40, 0x41, 0x3ff, 0x7ff]);

/** One write by hand of a memory with /WE: widths that are too short, not noticed, good; sometimes the address moves meanwhile. */
const strobe =
  (after: readonly number[]) =>
  (random: Random): VectorStep[] => [
    { set: { A: address(random), D: whole(random, 256) } },
    { wait: 1e-6 },
    { set: { '/WE': 0 } },
    { wait: pick(random, [15e-9, 60e-9, 80e-9, 300e-9, 300e-9]) },
    ...(random() < 0.2 ? [{ set: { A: address(random) } }, { wait: 300e-9 }] : []),
    { set: { '/WE': 1 } },
    { wait: 1e-6 },
    { set: { D: 'open' } },
    { wait: pick(random, after) },
  ];

/** One pulse of a UV EPROM, of any part of the time that it needs; sometimes light. */
const gate =
  (pulse: { pin: string; rest: 0 | 1 }, idle: Readonly<Record<string, number>>) =>
  (random: Random): VectorStep[] =>
    random() < 0.2
      ? [{ light: 1250 * random(), wattsPerCm2: 12e-3 }]
      : [
          { set: { ...idle, [pulse.pin]: pulse.rest, A: address(random) } },
          { wait: 1e-6 },
          { set: { D: whole(random, 256), VPP: 'high' } },
          { wait: 10e-6 },
          { set: { [pulse.pin]: 1 - pulse.rest } },
          { wait: 0.06 * random() },
          { set: { [pulse.pin]: pulse.rest } },
          { wait: 10e-6 },
          { set: { D: 'open', VPP: 1 } },
        ];

const fuse = (random: Random): VectorStep[] => {
  const pin = `D${whole(random, 8)}`;
  return [
    { set: { A: address(random), '/CE1': 'high' } },
    { wait: 10e-6 },
    { set: { [pin]: 'high' } },
    { wait: 80e-6 * random() },
    { set: { [pin]: 'open' } },
    { wait: 10e-6 },
    { set: { '/CE1': 0 } },
  ];
};

interface Case {
  readonly id: string;
  readonly high?: number;
  readonly rest: Readonly<Record<string, number>>;
  readonly act: (random: Random) => VectorStep[];
  /** what its plans must have shown after all seeds */
  readonly shows: readonly string[];
}
const REST = { '/CE': 0, '/OE': 1, '/WE': 1 };
const CASES: readonly Case[] = [
  { id: 'eeprom-2kx8', rest: REST, act: strobe([0.02, 0.02, 1e-4]), shows: ['uncertain', 'writes'] },
  { id: 'eeprom-8kx8', rest: REST, act: strobe([0.02, 20e-6]), shows: ['uncertain', 'writes'] },
  { id: 'static-ram-2kx8', rest: { '/CS': 0, '/OE': 1, '/WE': 1 }, act: strobe([1e-6]), shows: ['uncertain'] },
  {
    id: 'uv-eprom-2kx8',
    high: 25,
    rest: { '/CE': 0, '/OE': 1, VPP: 1 },
    act: gate({ pin: '/CE', rest: 0 }, { '/OE': 1 }),
    shows: ['uncertain', 'charge'],
  },
  {
    id: 'uv-eprom-8kx8',
    high: 21,
    rest: { '/CE': 0, '/OE': 1, '/PGM': 1, VPP: 1 },
    act: gate({ pin: '/PGM', rest: 1 }, { '/CE': 0, '/OE': 1 }),
    shows: ['uncertain', 'charge'],
  },
  { id: 'prom-2kx8', high: 20, rest: { '/CE1': 0, CE2: 1, CE3: 1 }, act: fuse, shows: ['uncertain', 'charge'] },
];
const SEEDS = [1, 2, 3];

const saved = (sim: Simulation): Plan => {
  const read = readPlan(JSON.stringify(sim.plan()));
  if (!read.ok) throw new Error(read.failure.says);
  return read.value;
};
const opened = (plan: Plan) => start(plan, { bounce: false });

describe.each(CASES)('$id', ({ id, high, rest, act, shows }) => {
  const kind = kindOf(id);
  const script = (random: Random, first: VectorStep[]): Vector => ({
    says: id,
    ...(high === undefined ? {} : { high }),
    steps: [...first, ...Array.from({ length: 8 }, () => act(random)).flat(), { wait: 0.05 }],
  });

  test('is the same after it has been saved and opened, goes on the same, and has something to save beside its bytes', () => {
    const seen = new Set<string>();
    for (const seed of SEEDS) {
      const random = makeRandom(seed);
      const { sim } = runVector(kind, script(random, [{ set: { ...rest, A: 0 } }]));
      const plan = saved(sim);
      for (const name of Object.keys(plan.cells?.U1 ?? {})) seen.add(name);
      expect(plan, `seed ${seed}`).toEqual(sim.plan());
      const again = opened(plan);
      expect(again.plan(), `seed ${seed}`).toEqual(plan);
      const more = script(random, [{ set: { ...rest, A: 1 } }]);
      expect(runOn(kind, more, sim), `seed ${seed}`).toEqual([]);
      expect(runOn(kind, more, again), `seed ${seed}`).toEqual([]);
      expect(again.plan(), `seed ${seed}`).toEqual(sim.plan());
    }
    expect([...seen].sort()).toEqual([...shows].sort());
  });
});

describe('bytes put in from outside', () => {
  const { sim } = runVector(kindOf('eeprom-2kx8'), {
    says: 'two short pulses and a good one',
    steps: [
      { set: { ...REST, A: 0 } },
      ...[0, 1, 2].flatMap((a): VectorStep[] => [
        { set: { A: a, D: 0x0f } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: a === 2 ? 300e-9 : 80e-9 },
        { set: { '/WE': 1 } },
        { wait: 0.02 },
      ]),
    ],
  });
  const plan = sim.plan();
  const [row, bytes] = Object.entries(plan.memories.U1!)[0]!;

  test('are certain, and the others stay as they were; so does how often each cell was written', () => {
    expect(plan.cells?.U1).toEqual({ uncertain: { '000': 'FFFF' }, writes: { '000': [1, 3] } });
    const after = apply(plan, storing(plan, 'U1', { [row]: `00${bytes.slice(2)}` }));
    expect(after.cells?.U1).toEqual({ uncertain: { '001': 'FF' }, writes: { '000': [1, 3] } });
    expect(start(after).plan()).toEqual(after);
  });
  test('are certain where they are named, though they look as before', () => {
    const after = apply(plan, storing(plan, 'U1', plan.memories.U1, [1]));
    expect(after.cells?.U1?.uncertain).toEqual({ '000': 'FF' });
  });
  test('and undone leave everything as it was', () => {
    const change = storing(plan, 'U1', { '000': '1234' });
    expect(apply(apply(plan, change), invert(change))).toEqual(plan);
  });
  test('a new memory in its place has fresh cells', () => {
    const part = plan.parts.find((p) => p.id === 'U1')!;
    const change = replacing(plan, part);
    expect(apply(plan, change).cells).toBeUndefined();
    expect(apply(apply(plan, change), invert(change))).toEqual(plan);
  });
  test('go with a memory that is taken off the bench and come back with it', () => {
    const index = plan.parts.findIndex((p) => p.id === 'U1');
    const remove = rebase(plan, { op: 'remove', list: 'parts', item: plan.parts[index]!, index });
    const without = apply(plan, remove);
    expect(without.cells).toBeUndefined();
    expect(JSON.stringify(apply(without, invert(remove)))).toBe(JSON.stringify(plan));
  });
  test('leave writes that came meanwhile counted', () => {
    const change = storing(plan, 'U1', { [row]: `00${bytes.slice(2)}` });
    const now = {
      ...plan,
      cells: { U1: { ...plan.cells?.U1, writes: { '000': [1, 2] as [number, number], '002': [7, 1] as [number, number] } } },
    };
    expect(apply(now, rebase(now, change)).cells?.U1).toEqual({ uncertain: { '001': 'FF' }, writes: { '000': [1, 2], '002': [7, 1] } });
  });
  test('a memory taken off the bench takes what was told of its cells with it', () => {
    const gone = { ...plan, parts: plan.parts.filter((p) => p.id !== 'U1'), memories: {} };
    expect(start(gone).plan().cells).toBeUndefined();
  });
});

test('a button that chatters on a memory with pages stores its byte, and nothing is said against it', () => {
  const touch = (seconds: number): VectorStep[] => [{ set: { '/WE': 0 } }, { wait: seconds }, { set: { '/WE': 1 } }, { wait: 1e-6 }];
  const steps = [{ set: { ...REST, A: 3, D: 0x5a } }, { wait: 1e-6 }, ...touch(300e-9), ...touch(60e-9), ...touch(60e-9), { wait: 0.02 }];
  const { sim } = runVector(kindOf('eeprom-8kx8'), { says: 'a touch that chatters', steps });
  expect(sim.events.map((e) => e.outcome)).toEqual(['stored', 'ignored', 'ignored']);
  expect(sim.plan().cells?.U1).toEqual({ writes: { '003': [1, 1] } });
  expect(findingsNow(sim).filter((f) => f.code.startsWith('memory/write'))).toEqual([]);
});
