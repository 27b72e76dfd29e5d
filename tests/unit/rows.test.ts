/** Rows solved without events: which benches have them, and that the event engine has the last word. */
import { describe, expect, test } from 'vitest';
import { composeAll } from '../../sim-core/demos/documents.ts';
import type { RowWalk } from '../../sim-core/run/row-walk.ts';
import { RowEngine } from '../../sim-core/run/rows/row-engine.ts';
import { simulate } from '../../sim-core/run/simulation.ts';
import { walkRows } from '../../sim-core/run/sweep.ts';
import { LED_ON_D0, MEMORY, planOf, READ_BY_S3 } from '../support/bench.ts';

const READS = `${MEMORY}\n${LED_ON_D0}\n${READ_BY_S3}`;

/** By row: what its LEDs look like. */
function ledsOf(walk: RowWalk): string[] {
  const rows: string[] = [];
  for (let row = walk.next(); row >= 0; row = walk.next()) rows[row] = walk.brightnesses.join();
  return rows;
}

const walkOf = (plan: Parameters<typeof walkRows>[0], options: Parameters<typeof walkRows>[1] = {}): RowWalk => {
  const walk = walkRows(plan, options);
  if (!walk.ok) throw new Error(walk.failure.says);
  return walk.value;
};

function builtOf(text: string) {
  const sim = simulate(planOf(text), { still: true });
  if (!sim.ok) throw new Error(sim.failure.says);
  return sim.value.built;
}

describe('rows without events', () => {
  test.each(Object.entries(composeAll()).filter(([, plan]) => plan.parts.some((p) => p.kind === 'dip-switch')))(
    'the demonstration %s shows the same LEDs in every row',
    (_, plan) => {
      expect(ledsOf(walkOf(plan))).toEqual(ledsOf(walkOf(plan, { rows: 'events' })));
    },
  );

  test('on the greenhouse the event engine is needed only for what it has not shown before', () => {
    const walk = walkOf(composeAll().greenhouse!);
    ledsOf(walk);
    expect(walk.solved).toBeGreaterThan(20);
  });

  test('a memory that is read is combinational', () => {
    expect(RowEngine.of(builtOf(READS))).toBeDefined();
  });

  test.each([
    ['a register', 'octal-register U9 HCT at e50\nwire X1 red from j50 to +j48\nwire X2 black from a59 to -a49'],
    ['a second supply', 'bench-supply PS2\nwire X1 red from PS2.+ to j60\nwire X2 black from PS2.- to -j48'],
    ['a transistor', 'npn-transistor Q1 at b50'],
    [
      'two gates that hold each other',
      'quad-nor U9 HCT at e50\nwire X1 red from j50 to +j48\nwire X2 black from a56 to -a49\nwire X3 white from a50 to a55\nwire X4 white from b52 to b53',
    ],
  ])('a bench with %s is left to the event engine', (_, more) => {
    expect(RowEngine.of(builtOf(`${READS}\n${more}`))).toBeUndefined();
  });

  test('a chip that answers something else than it drives is found out, and its bench left to the event engine', () => {
    const built = builtOf(READS);
    const engine = RowEngine.of(built)!;
    const leds = new Uint8Array(1);
    expect(engine.learn(leds.fill(9))).toBe(false);
    const honest = built.runtime.all[0]!.chip.settled!.bind(built.runtime.all[0]!.chip);
    built.runtime.all[0]!.chip.settled = (level, pulls) => {
      const known = honest(level, pulls);
      pulls[0] = 3 - (pulls[0] as number);
      return known;
    };
    expect(engine.learn(leds)).toBe(false);
  });
});
