/** Building along: every step and check of a sheet has a screen, and what is ticked off is kept until the thing is somewhere else. */
import { expect, test } from 'vitest';
import { AlongProgress, screensOf } from '../../client/sheet/along-progress.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { checkLines, sheetFor } from '../../sim-core/index.ts';

const plan = demoPlan('adding-machine')!;
const made = sheetFor(plan);
if (!made.ok) throw new Error(made.failure.says);
const sheet = made.value;
const screens = screensOf(sheet, (s) => checkLines(s.checks));

/** What localStorage does, as far as it is asked for. */
function shelf(refuses = false) {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => {
      if (refuses) throw new Error('full');
      kept.set(key, value);
    },
  };
}

test('every part and wire has one screen, then come the checks of its stage; no two are kept under one key', () => {
  const steps = screens.flatMap((s) => (s.step ? [s.step.id] : []));
  expect(steps.sort()).toEqual([...plan.parts, ...plan.wires].map((t) => t.id).sort());
  expect(new Set(screens.map((s) => s.key)).size).toBe(screens.length);
  for (const s of screens) expect(s.k).toBeLessThanOrEqual(s.of);
});

test('what is done is found again by the title of the bench, and the first that is not done comes next', () => {
  const store = shelf();
  const progress = new AlongProgress('Adding machine', store);
  expect(progress.next(screens)).toBe(0);
  for (const s of screens.slice(0, 3)) progress.set(s, 'done');
  const again = new AlongProgress('Adding machine', store);
  expect(again.next(screens)).toBe(3);
  expect(new AlongProgress('Another', store).next(screens)).toBe(0);
  again.set(screens[1]!, undefined);
  expect(new AlongProgress('Adding machine', store).next(screens)).toBe(1);
  again.set(screens[0]!, 'wrong');
  expect(new AlongProgress('Adding machine', store).of(screens[0]!)).toBe('wrong');
  expect(new AlongProgress('Adding machine', store).next(screens)).toBe(0);
});

test('a wire that has been moved since is to be done again, the others are not', () => {
  const store = shelf();
  const progress = new AlongProgress('x', store);
  for (const s of screens) progress.set(s, 'done');
  const rail = plan.wires.find((w) => w.from.startsWith('+j') && w.to.startsWith('j'))!;
  const moved = sheetFor({ ...plan, wires: plan.wires.map((w) => (w === rail ? { ...w, from: '+j30' } : w)) });
  if (!moved.ok) throw new Error(moved.failure.says);
  const steps = screensOf(moved.value, () => []);
  const after = new AlongProgress('x', store);
  expect(steps.filter((s) => after.of(s) !== 'done').map((s) => s.step?.id)).toEqual([rail.id]);
});

test('a store that is full, forbidden or full of nonsense does not stop anybody', () => {
  const progress = new AlongProgress('x', shelf(true));
  progress.set(screens[0]!, 'done');
  expect(progress.of(screens[0]!)).toBe('done');
  expect(new AlongProgress('x', undefined).next(screens)).toBe(0);
  expect(new AlongProgress('x', { getItem: () => '[nonsense', setItem: () => {} }).next(screens)).toBe(0);
});
