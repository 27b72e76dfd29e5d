/**
 * Wiring that can be followed, on the same circuit: wires' ends and resistors go to other holes of their nets as long as that costs less.
 *
 * A search by simulated annealing (S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi 1983, Science 220, from memory): what costs more is taken now and then, less
 * often as it goes on, and the best of all is kept. Every move leaves each net in one piece. The same plan and seed give the same wiring.
 */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { makeRandom } from '../units/random.ts';
import { drawnBench } from './drawn-bench.ts';
import { figuresOf, type WiringFigures, wiringFigures } from './wiring-figures.ts';
import { propose, type Undo } from './wiring-moves.ts';
import { WiringState } from './wiring-state.ts';

/** A plan whose wiring has been tidied, and how easily it was followed before, and is now. */
export interface TidiedPlan {
  readonly plan: Plan;
  readonly before: WiringFigures;
  readonly after: WiringFigures;
}

export interface TidyOptions {
  /** moves that are tried for each wire and each part with two legs, for each seed */
  readonly tries: number;
  readonly seeds: readonly number[];
  /** parts and wires that stay where they are */
  readonly locked?: readonly string[];
}

const USUAL: TidyOptions = { tries: 150, seeds: [1] };
/** What a move may cost more at first, and in the end; our choice. */
const [HOT, COLD] = [8, 0.15];

/** Fails with `plan/…` if something cannot be where the plan says. */
export function tidyWiring(
  plan: Plan,
  { tries = USUAL.tries, seeds = USUAL.seeds, locked = [] }: Partial<TidyOptions> = USUAL,
): Outcome<TidiedPlan> {
  const drawn = drawnBench(plan);
  if (!drawn.ok) return drawn;
  let best = plan;
  let least = 0;
  for (const seed of seeds) {
    const state = new WiringState(drawn.value, new Set(locked));
    const saved = anneal(state, tries * state.lines.length, seed);
    if (saved < least) {
      least = saved;
      best = state.planOf(plan);
    }
  }
  const after = wiringFigures(best);
  return after.ok ? done({ plan: best, before: figuresOf(drawn.value), after: after.value }) : after;
}

/** Leaves the state at the best that was found; returns what it costs more than at first. */
function anneal(state: WiringState, tries: number, seed: number): number {
  const random = makeRandom(seed);
  let [now, best] = [0, 0];
  /** moves since the best, to go back to it */
  const since: Undo[] = [];
  for (let k = 0; k < tries; k++) {
    const move = propose(state, random);
    if (!move) continue;
    const heat = HOT * (COLD / HOT) ** (k / tries);
    if (move.dearer > 0 && random() >= Math.exp(-move.dearer / heat)) {
      move.undo();
      continue;
    }
    now += move.dearer;
    if (now < best - 1e-9) {
      best = now;
      since.length = 0;
    } else since.push(move.undo);
  }
  for (const undo of since.reverse()) undo();
  return best;
}
