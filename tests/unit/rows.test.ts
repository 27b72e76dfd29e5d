/** Rows solved without events: which benches have them, and that the event engine has the last word. */
import { describe, expect, test } from 'vitest';
import { composeAll } from '../../sim-core/demos/documents.ts';
import { GROUND } from '../../sim-core/devices/network.ts';
import { measureBrightness } from '../../sim-core/run/readout/measure.ts';
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

/** of a bench whose S3 is moved */
function engineOf(text: string): RowEngine | undefined {
  const built = builtOf(text);
  return RowEngine.of(built, built.circuit.contactsById.get('S3')!, new Uint8Array(built.circuit.leds.length));
}

/** Wires from these holes to the rails beside them. */
function ties(holes: Readonly<Record<string, '+' | '-'>>): string {
  return Object.entries(holes)
    .map(([hole, rail], k) => `wire T${k} black from ${hole} to ${rail}j${36 + k}`)
    .join('\n');
}

/** Which part of the rows was solved without events, by a walk after another; in each, LEDs and voltages that something holds are those of the event engine. */
function sameRows(plan: Parameters<typeof walkRows>[0]): number {
  const [walk, judge] = [walkOf(plan), walkOf(plan, { rows: 'events' })];
  const [x, y] = [walk, judge].map(({ circuit }) => new Float64Array(circuit.network.n + 1)) as [Float64Array, Float64Array];
  let worst = 0;
  for (let pass = 0; pass < 2; pass++) {
    for (let row = walk.next(); row >= 0; row = walk.next()) {
      judge.goTo(row);
      expect([...walk.brightnesses]).toEqual([...judge.brightnesses]);
      walk.voltages(x);
      judge.voltages(y);
      const { nets } = judge.bench().readings();
      for (const [net, node] of judge.circuit.nodeOfNet.entries())
        if (node !== GROUND && nets[net]?.drive !== 'floating') worst = Math.max(worst, Math.abs(x[node]! - y[node]!));
    }
    if (pass === 0) walk.again();
  }
  expect(worst).toBeLessThan(4e-9);
  return walk.solved / walk.rows;
}

describe('rows without events', () => {
  test.each(Object.entries(composeAll()).filter(([, plan]) => plan.parts.some((p) => p.kind === 'dip-switch')))(
    'the demonstration %s shows the same in every row',
    (_, plan) => {
      expect(sameRows(plan)).toBeGreaterThanOrEqual(0);
    },
  );

  test('on the greenhouse the event engine is needed only for what it has not shown before', () => {
    const walk = walkOf(composeAll().greenhouse!);
    ledsOf(walk);
    expect(walk.solved).toBeGreaterThan(20);
  });

  test('a memory that is read is combinational', () => {
    expect(engineOf(READS)).toBeDefined();
  });

  /** Beside the memory that S3 reads: what stands still as long as `tie` is a wire to minus, and would be moved by S3 if it came from A0. */
  const BESIDE = [
    {
      what: 'a register that is kept clear',
      tie: 'a52',
      lines: `octal-register-clear U9 HCT at e50\n${ties({ j50: '+', a59: '-', a50: '-', a53: '-', a56: '-', a57: '-', j52: '-', j53: '-', j56: '-', j57: '-', j59: '-' })}`,
    },
    {
      what: 'two gates that hold each other',
      tie: 'a51',
      lines: `quad-nor U9 HCT at e50\n${ties({ j50: '+', a56: '-', a54: '+', j52: '-', j53: '-', j55: '-', j56: '-' })}\nwire X3 white from b50 to b55\nwire X4 white from b52 to b53`,
    },
    {
      what: 'a transistor',
      tie: 'a54',
      lines: `npn-transistor Q1 at b50\n${ties({ a50: '-', j52: '+' })}\nresistor RC 1k from c52 to g52\nresistor RB 10k from c51 to c54`,
    },
  ];
  const still = (lines: string, tie: string): string => `${READS}\n${lines}\nwire XT white from ${tie} to -a25`;
  const moving = (lines: string, tie: string): string => `${READS}\n${lines}\nwire XT white from ${tie} to c19`;

  test.each(BESIDE)('$what that no row moves stands still meanwhile: $tie', ({ lines, tie }) => {
    expect(sameRows(planOf(still(lines, tie)))).toBe(1);
  });

  test.each(BESIDE)('$what that rows move is left to the event engine', ({ lines, tie }) => {
    expect(engineOf(still(lines, tie))).toBeDefined();
    expect(engineOf(moving(lines, tie))).toBeUndefined();
    expect(sameRows(planOf(moving(lines, tie)))).toBe(0);
  });

  test('a second supply has rows of its own blocks, but not where a block leans on both', () => {
    const second = 'bench-supply PS2 3.3V\nwire X1 red from PS2.+ to j60\nwire X2 black from PS2.- to -j48\nswitch PS2 set 1';
    expect(engineOf(`${READS}\n${second}\nresistor R9 1k from g60 to -j45`)).toBeDefined();
    expect(engineOf(`${READS}\n${second}\nresistor R9 1k from g60 to b40`)).toBeUndefined();
  });

  test('a chip that answers something else than it drives is found out, and its bench left to the event engine', () => {
    const built = builtOf(READS);
    const leds = new Uint8Array(1);
    const engine = RowEngine.of(built, built.circuit.contactsById.get('S3')!, leds)!;
    leds.fill(9);
    expect(engine.learn()).toBe(false);
    measureBrightness(built, leds);
    expect(engine.learn()).toBe(true);
    const honest = built.runtime.all[0]!.chip.settled!.bind(built.runtime.all[0]!.chip);
    built.runtime.all[0]!.chip.settled = (level, pulls) => {
      const known = honest(level, pulls);
      pulls[0] = 3 - (pulls[0] as number);
      return known;
    };
    expect(engine.learn()).toBe(false);
  });
});
