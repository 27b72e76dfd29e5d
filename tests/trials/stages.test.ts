/** Mistakes of every kind planted in the stage in which they are made, on sixteen benches: how many a check of that stage finds, and how many a later one. */
import { expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { diagnosisBenches } from '../support/diagnosis-benches.ts';
import { plantInStages, type StageMistake } from '../support/stage-mistakes.ts';

const FULL = process.env.TRIALS === 'full';
const seed = Number(process.env.FROM ?? 1);
const most = Number(process.env.COUNT ?? (FULL ? 8 : 1));
const byHand = ['wind-vane', 'greenhouse-blank'].map((name) => ({ name, plan: demoPlan(name)! }));
const benches = FULL ? [...diagnosisBenches(), ...byHand] : byHand.slice(0, 1);

const percent = (part: number, of: number) => (of === 0 ? '' : `${((100 * part) / of).toFixed(1)} %`);

function printTable(all: readonly StageMistake[]): void {
  const rows = [...new Set(all.map((m) => m.kind))].sort().map((kind) => {
    const of = all.filter((m) => m.kind === kind);
    const at = of.filter((m) => m.caught === m.stage).length;
    const later = of.filter((m) => m.caught && m.caught !== m.stage).length;
    return { kind, planted: of.length, 'in its stage': at, later, missed: of.length - at - later, share: percent(at + later, of.length) };
  });
  console.table(rows);
  const caught = all.filter((m) => m.caught).length;
  const at = all.filter((m) => m.caught === m.stage).length;
  console.log(
    `seed ${seed}: ${all.length} planted; in their stage ${at} (${percent(at, all.length)}), at all ${caught} (${percent(caught, all.length)})`,
  );
  console.log(
    `missed:\n${all
      .filter((m) => !m.caught)
      .map((m) => `  ${m.stage}: ${m.id}`)
      .slice(0, 60)
      .join('\n')}`,
  );
}

test('a check fails for the usual mistakes of its stage', () => {
  const all = benches.flatMap(({ plan }) => plantInStages(plan, most, seed));
  printTable(all);
  expect(all.length).toBeGreaterThan(20);
  expect(all.filter((m) => m.caught).length / all.length).toBeGreaterThan(0.85);
});
