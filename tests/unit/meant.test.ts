/** The bench as it is meant: a build starts with it, no edit of the bench changes it, and the text notation keeps it, briefly. */
import { expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { apply, asMeant, difference, invert, keepAsMeant, readBenchText, sayChange, writeBenchText } from '../../sim-core/index.ts';
import { built } from '../support/any-build.ts';
import { ledPlan } from '../support/plans.ts';

const back = (plan: Plan): Plan => {
  const read = readBenchText(writeBenchText(plan), (p) => readPlan(JSON.stringify(p)));
  if (!read.ok) throw new Error(read.failure.says);
  return read.value;
};
const bench = asMeant(ledPlan(330));
const moved: Plan = { ...bench, wires: bench.wires.map((w) => (w.id === 'W2' ? { ...w, from: 'c15' } : w)) };

test('a build starts with one: as it stands', () => {
  const made = built({
    title: 'Two gates',
    inputs: ['a', 'b'],
    outputs: [{ name: 'and' }, { name: 'or' }],
    rows: [0, 2, 2, 3],
    memory: 'eeprom-2kx8',
    byHand: false,
    show: 'leds',
    buffered: true,
    amps: 4e-3,
  });
  expect(made.meant).toEqual({ boards: made.boards, parts: made.parts, wires: made.wires });
});
test('an edit of the bench leaves it as it was, and only keeping replaces it', () => {
  expect(moved.meant).toEqual(bench.meant);
  const kept = apply(moved, keepAsMeant(moved));
  expect(kept.meant?.wires).toEqual(moved.wires);
  expect(apply(kept, invert(keepAsMeant(moved)))).toEqual(moved);
  expect(apply(moved, difference(moved, kept))).toEqual(kept);
  expect(sayChange(keepAsMeant(moved))).toMatch(/keep the bench as meant/i);
});
test('as text it is one line where the bench stands as it is meant, whatever the order of the lines', () => {
  expect(writeBenchText(bench).match(/^meant.*$/gm)).toEqual(['meant unchanged']);
  expect(back(bench)).toEqual(bench);
  const early = writeBenchText(bench).replace('meant unchanged\n', '').replace('title ', 'meant unchanged\ntitle ');
  expect(readBenchText(early)).toMatchObject({ ok: true, value: { meant: bench.meant } });
});
test('as text it is one line for each thing where something differs, and one word where nothing was meant', () => {
  const text = writeBenchText(moved);
  expect(text).toContain('\nmeant resistor R1 330 from a5 to a10\n');
  expect(text).toContain('\nmeant wire W2 black from c14 to PS1.-\n');
  expect(back(moved)).toEqual(moved);
  const nothing = { ...moved, meant: { boards: [], parts: [], wires: [] } };
  expect(writeBenchText(nothing)).toMatch(/^meant empty$/m);
  expect(back(nothing)).toEqual(nothing);
});
test('a line of it that cannot be read says which', () => {
  expect(readBenchText('lampwright-text 2\nmeant wire W1 red from a1')).toMatchObject({ ok: false, failure: { at: 'line 2' } });
  expect(readBenchText('lampwright-text 2\nmeant frog F1 at a1')).toMatchObject({ ok: false, failure: { at: 'line 2' } });
});
