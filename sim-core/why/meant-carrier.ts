/** Which difference from the bench as it is meant carries what an LED shows: each is undone alone, and one that leaves the LED as it is is not named. */
import { difference } from '../document/difference.ts';
import type { Brightness } from '../run/readout/readings.ts';
import { type ExplanationQuestion, type ExplanationStep, explanationStep } from './explanation-step.ts';
import { lookAfter } from './tested-fix.ts';
import { type UnlikeMeant, undoAll, unlikeMeant } from './unlike-meant.ts';

/** Differences beyond so many are not tried one by one. */
const MOST = 40;

/** undefined: nothing differs, or the LED looks as it would on the bench as meant. */
export function meantCarrier(q: ExplanationQuestion, led: string, now: Brightness): ExplanationStep | undefined {
  const plan = q.sim.plan();
  const differences = unlikeMeant(plan).slice(0, MOST);
  if (!plan.meant || differences.length === 0) return undefined;
  const undone = (some: readonly UnlikeMeant[]) => lookAfter(q.sim, undoAll(some).change, led);
  const meant = lookAfter(q.sim, difference(plan, { ...plan, ...plan.meant }), led);
  if (meant === undefined || meant === now) return undefined;
  const alone = differences.filter((d) => undone([d]) === meant);
  const carriers = alone.length > 0 ? alone.slice(0, 1) : together(differences, (some) => undone(some) === meant);
  return explanationStep(
    carriers.map((c) => c.reason),
    carriers.length > 0 ? [undoAll(carriers)] : [],
  );
}

/** As few of them as still do it together. */
function together(all: readonly UnlikeMeant[], doesIt: (some: readonly UnlikeMeant[]) => boolean): readonly UnlikeMeant[] {
  if (!doesIt(all)) return all.slice(0, 1);
  return all.reduce<readonly UnlikeMeant[]>((left, one) => {
    const without = left.filter((d) => d !== one);
    return without.length > 0 && doesIt(without) ? without : left;
  }, all);
}
