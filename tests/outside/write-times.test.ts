/**
 * The times around an EEPROM's write pulse against published figures, each a nanosecond or two on either side of its limit, for writes that /WE ends and
 * for writes that /CE ends. SOURCES.md S2 for the 2K × 8 (10, 50, 50, 10, 10, 10 ns), S4 and S5 for those with pages (0, 50, 50, 0, 0, 0 ns).
 */
import { describe, expect, test } from 'vitest';
import type { WriteTime } from '../../sim-core/parts/part.ts';
import { kindOf, runVector } from '../support/part-bench.ts';
import type { VectorStep } from '../vectors/vector.ts';

const NS = 1e-9;
type Set = Extract<VectorStep, { set: unknown }>['set'];
/** A pulse of 200 ns at 0; what moves, and when [ns]. Contents: 5A at the even addresses, A5 at the odd ones; the byte is 00 to begin with, and 0F in the end. */
function pulseWith(id: string, by: '/WE' | '/CE', moves: readonly (readonly [ns: number, set: Set])[], before: Set = {}) {
  const all = [...moves, [0, { [by]: 0 }] as const, [200, { [by]: 1 }] as const].sort(([a], [b]) => a - b);
  const steps: VectorStep[] = [{ set: { A: 0, D: 0x0f, '/OE': 1, '/WE': by === '/WE' ? 1 : 0, '/CE': by === '/CE' ? 1 : 0, ...before } }];
  let at = -1000;
  for (const [ns, set] of all) {
    if (ns > at) steps.push({ wait: (ns - at) * NS });
    steps.push({ set });
    at = ns;
  }
  const { sim } = runVector(kindOf(id), { says: '', contents: { '000': '5AA55AA55AA55AA5' }, steps: [...steps, { wait: 0.02 }] });
  const report = sim.events.at(-1);
  return {
    outcome: report?.outcome,
    faults: report?.faults,
    cells: sim.plan().memories.U1?.['000'] ?? sim.plan().memories.U1?.['0000'],
    sim,
  };
}

const MEMORIES = [
  ['eeprom-2kx8', [10, 50, 50, 10, 10, 10]],
  ['eeprom-8kx8', [0, 50, 50, 0, 0, 0]],
  ['eeprom-32kx8', [0, 50, 50, 0, 0, 0]],
  // from memory
  ['eeprom-64kx8', [0, 50, 50, 0, 0, 0]],
] as const;

describe.each(MEMORIES.flatMap(([id, limits]) => (['/WE', '/CE'] as const).map((by) => [id, by, limits] as const)))(
  'a write of %s by %s',
  (id, by, [addressSetup, addressHold, dataSetup, dataHold, enableSetup, enableHold]) => {
    const cases: readonly (readonly [time: WriteTime, limit: number, edge: number, sign: 1 | -1, set: Set, before: Set])[] = [
      ['address-setup', addressSetup, 0, -1, { A: 0 }, { A: 1 }],
      ['address-hold', addressHold, 0, 1, { A: 1 }, {}],
      ['data-setup', dataSetup, 200, -1, { D: 0x0f }, { D: 0 }],
      ['data-hold', dataHold, 200, 1, { D: 0 }, {}],
      ['output-enable-setup', enableSetup, 0, -1, { '/OE': 1 }, { '/OE': 0, D: 'open' }],
      ['output-enable-hold', enableHold, 200, 1, { '/OE': 0, D: 'open' }, {}],
    ];
    test.each(cases)('%s: %i ns', (time, limit, edge, sign, set, before) => {
      const data: readonly (readonly [number, Set])[] = time === 'output-enable-setup' ? [[50, { D: 0x0f }]] : [];
      const moving = (ns: number) => pulseWith(id, by, [[edge + sign * ns, set], ...data], before);
      const kept = moving(limit + 2);
      expect(kept.faults).toEqual([]);
      expect(kept.outcome).toBe('stored');
      if (limit === 0) return;
      const broken = moving(limit - 2);
      expect(broken.outcome).toBe('uncertain');
      expect(broken.faults?.map((f) => f.fault)).toContain(time);
      const fault = broken.faults?.find((f) => f.fault === time);
      if (!fault || !('measured' in fault)) throw new Error('it is measured');
      expect(fault.measured / NS).toBeCloseTo(limit - 2, 0);
      expect(fault.limit / NS).toBeCloseTo(limit, 9);
    });
  },
);

/** What is uncertain is written as 1 in a plan; 5A and A5 with 0F in doubt read 5F and AF. */
const firstEight = (cells: string | undefined) => cells?.slice(0, 16);

describe('address lines that skew while the address is latched', () => {
  test('leave every mixture of before and after uncertain, and nothing else', () => {
    // A0 first, A1 five nanoseconds later: 0, 1 and 3 stood there, and with unequal latches 2 as well
    const { cells } = pulseWith('eeprom-2kx8', '/WE', [
      [20, { A0: 1 }],
      [25, { A1: 1 }],
    ]);
    expect(firstEight(cells)).toBe('5FAF5FAF5AA55AA5');
  });
  test('before the pulse as well', () => {
    const { cells } = pulseWith('eeprom-2kx8', '/WE', [
      [-8, { A0: 1 }],
      [-5, { A2: 1 }],
    ]);
    expect(firstEight(cells)).toBe('5FAF5AA55FAF5AA5');
  });
  test('a line that has moved early enough is sure', () => {
    const { cells } = pulseWith('eeprom-2kx8', '/WE', [
      [-30, { A2: 1 }],
      [-5, { A0: 1 }],
    ]);
    expect(firstEight(cells)).toBe('5AA55AA55FAF5AA5');
  });
  test('an undefined address line leaves both bytes uncertain', () => {
    const { cells } = pulseWith('eeprom-2kx8', '/WE', [[-500, { A1: 'open' }]]);
    expect(firstEight(cells)).toBe('5FA55FA55AA55AA5');
  });
});

test('whether a byte was written at all is uncertain where /OE came late: bits on which the old byte and the new one agree are known', () => {
  const { cells } = pulseWith(
    'eeprom-2kx8',
    '/WE',
    [
      [-5, { '/OE': 1 }],
      [50, { D: 0x0f }],
    ],
    { '/OE': 0, D: 'open' },
  );
  expect(firstEight(cells)).toBe('5FA55AA55AA55AA5');
});
