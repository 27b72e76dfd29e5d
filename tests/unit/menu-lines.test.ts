/** The menu at the pointer: every line of it is a command that is complete, or is gone on with in the command line. */
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../client/commands/catalogue.ts';
import { missing, parseCommandLine } from '../../client/commands/line.ts';
import { menuLines } from '../../client/commands/menu-lines.ts';
import type { Builder } from '../../client/edit/builder.ts';
import type { Target } from '../../client/edit/hit-test.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import type { Session } from '../../client/state/session.ts';
import { demoPlan } from '../../shared/demo-plans.ts';

const model = makeBenchModel(demoPlan('greenhouse')!);
const lines = (target: Target, selection: readonly string[] = []) =>
  menuLines(target, { session: { model } as Session, builder: { selection: new Set(selection) } as unknown as Builder });
const TARGETS: readonly Target[] = [
  ...model.plan.parts.map(({ id }): Target => ({ on: 'part', id })),
  ...model.plan.wires.map(({ id }): Target => ({ on: 'wire', id })),
  { on: 'part', id: 'LED3', led: 'LED3' },
  { on: 'control', id: 'S1' },
  { on: 'board', id: 'B1' },
  { on: 'point', point: 'e14', spot: [14, 10] },
  { on: 'point', point: 'PS1.+', spot: [0, 0] },
  { on: 'ground' },
];

test.each(TARGETS.map((target) => [JSON.stringify(target), target] as const))('for %s each line is a command', (_, target) => {
  const offered = lines(target);
  expect(offered.length).toBeGreaterThan(2);
  expect(new Set(offered.map((l) => l.says)).size).toBe(offered.length);
  for (const { line, goesOn } of offered) {
    const parsed = parseCommandLine(line, COMMANDS);
    expect(parsed, line).toBeDefined();
    // whoever gives an LED no name removes the one it has: that is asked for in the line, too
    if (!goesOn) expect(missing(parsed!), line).toBeUndefined();
  }
});

describe('what is offered', () => {
  const says = (target: Target, selection?: readonly string[]) => lines(target, selection).map((l) => l.says);

  test('of an LED is its reason first', () => expect(says({ on: 'part', id: 'LED3' })[0]).toBe('Why is LED3 lit or dark?'));
  test('of a memory is its inside view', () => expect(says({ on: 'part', id: 'U1' })[0]).toBe('Inside view'));
  test('of one of several selected things is done to all of them', () =>
    expect(lines({ on: 'wire', id: 'W3' }, ['W3', 'R1'])).toContainEqual({ says: 'Delete 2 selected', line: 'delete' }));
  test('of a meter is to remove it', () => {
    const meter = { id: 'M1', measures: 'volts', at: 'a1' } as const;
    const measured = { ...model, plan: { ...model.plan, meters: [meter] } };
    const offered = menuLines(
      { on: 'control', id: 'M1' },
      { session: { model: measured } as Session, builder: { selection: new Set() } as unknown as Builder },
    );
    expect(offered[0]).toEqual({ says: 'Delete this meter', line: 'delete meter M1' });
    expect(parseCommandLine('delete meter M1', COMMANDS)?.command.name).toBe('delete meter');
  });
  test('of a supply is its switch', () => expect(says({ on: 'part', id: 'PS1' })).toContain('Switch on or off'));
  test('of a hole begins a wire there', () =>
    expect(lines({ on: 'point', point: 'e14', spot: [14, 10] })[0]).toEqual({
      says: 'Wire from e14 to…',
      line: 'wire e14 to',
      goesOn: true,
    }));
});
