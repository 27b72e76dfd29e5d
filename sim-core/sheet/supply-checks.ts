/** Checks of what is to be at a supply's voltage: no short between the rails, each rail at both ends, supply pins and tied pins at the empty places of the chips. */

import type { PlanBoard } from '../../shared/plan.ts';
import { BOARDS, type Rail, railHalf } from '../board/boards.ts';
import type { Leg } from '../board/layout.ts';
import { type Hole, holeName, stripOf } from '../board/tie-points.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import type { CheckBench } from './check-bench.ts';
import type { StageCheck } from './stage-check.ts';
import type { StageName } from './stages.ts';

/** Between the rails, supply off; the least is what its current limit allows, if the plan itself is below that. */
export function railsCheck(bench: CheckBench, stage: StageName): StageCheck[] {
  const { plus: red, minus: black, whole, figures } = bench;
  const wire = whole.plan.wires.find((w) => w.from === red || w.to === red)?.id ?? '';
  const check = bench.reading(stage, { by: 'ohms', red, black, about: { what: 'rails', wire } });
  if (!check) return [];
  return [(check.expects ?? Number.POSITIVE_INFINITY) < figures.volts / figures.amps ? { ...check, drawnWrong: true } : check];
}

const SIDES = [
  ['top', '+j', '-j'],
  ['bottom', '+a', '-a'],
] as const;

/** Every pair of rails that is used, at the end that is farther from its wires; both ends where the rails are cut. */
export function railChecks(bench: CheckBench): StageCheck[] {
  const { whole, plus, minus } = bench;
  const used = (hole: Hole) => whole.nets.ofStrip.get(stripOf(hole));
  return whole.plan.boards.flatMap((board) =>
    SIDES.flatMap(([side, positive, negative]) =>
      endsOf(board).flatMap(({ k, end }) => {
        const hole = (rail: Rail): Hole => ({ board, rail, k });
        const [p, n] = [hole(positive), hole(negative)];
        if (!used(p) && !used(n)) return [];
        const name = (h: Hole, other: string) => (used(h) ? holeName(h, whole.plan.boards) : other);
        const check = bench.reading('power', {
          by: 'volts',
          red: name(p, plus),
          black: name(n, minus),
          about: { what: 'rail', board: board.id, side, end },
        });
        return check && Math.abs(check.expects ?? 0) > 0.1 ? [check] : [];
      }),
    ),
  );
}

function endsOf(board: PlanBoard): ReadonlyArray<{ readonly k: number; readonly end: 'left' | 'right' }> {
  const kind = BOARDS[board.kind];
  const right = { k: kind.railHoles, end: 'right' } as const;
  return board.splitRails && railHalf(kind, 1) !== railHalf(kind, kind.railHoles) ? [{ k: 1, end: 'left' }, right] : [right];
}

/** Supply pins of the chips whose wiring belongs to this stage, and every pin that is tied in it. None reads 0 V, so that a missing wire fails. */
export function tieChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  const [now, before] = [bench.after(stage), bench.before(stage)];
  return bench.chips.flatMap((site) => {
    const isNew = (leg: Leg) => bench.railOf(leg, now) !== undefined && !(before && bench.railOf(leg, before) !== undefined);
    const { legs } = site.placed;
    const plusPin = site.supply.leg;
    const ownStage = isNew(plusPin) || isNew(site.ground.leg);
    const checks = ownStage && plusPin !== site.ground.leg ? supplyCheck(bench, stage, site) : [];
    for (const leg of legs.filter(isNew)) {
      if (leg.pin === plusPin.pin && checks.length > 0) continue;
      if (leg.pin === site.ground.leg.pin && checks.length > 0) continue;
      const to = bench.railOf(leg, now);
      if (to) checks.push(...tieCheck(bench, stage, site, leg, to));
    }
    return checks;
  });
}

function supplyCheck(bench: CheckBench, stage: StageName, site: ChipSite): StageCheck[] {
  const { volts, tolerance } = bench.figures;
  const [red, black] = [bench.holeOf(site.supply.leg), bench.holeOf(site.ground.leg)];
  const check = bench.reading(stage, { by: 'volts', red, black, about: { what: 'supply', ...bench.pinWords(site.supply.leg) } });
  if (!check) return [];
  const off = Math.abs((check.expects ?? 0) - volts) > volts * Math.max(tolerance, 0.01);
  return [off ? { ...check, drawnWrong: true } : check];
}

function tieCheck(bench: CheckBench, stage: StageName, site: ChipSite, leg: Leg, to: '+' | '-'): StageCheck[] {
  const words = bench.pinWords(leg);
  const hole = bench.holeOf(leg);
  const check = bench.reading(stage, {
    by: 'volts',
    red: to === '+' ? hole : `${bench.supply.placed.part.id}.${bench.supply.plus.pin}`,
    black: to === '+' ? bench.minus : hole,
    about: { what: 'tied', to, ...words },
  });
  const wants = site.spec.toRead?.[words.name];
  const isInput = bench.whole.plan.wanted?.inputs.some((i) => i.pin === `${words.part}.${words.name}`) ?? false;
  const wrong = isInput || (wants !== undefined && (wants === 'H') !== (to === '+'));
  return check ? [wrong ? { ...check, drawnWrong: true } : check] : [];
}
