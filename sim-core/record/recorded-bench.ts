/** A bench whose every act is kept, so that any past moment of it can be shown: what was done is done once more, turn by turn, to the bit. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Action } from '../run/action.ts';
import type { Options, Simulation } from '../run/api.ts';
import { simulateAsFound } from '../run/simulation.ts';
import type { Slices } from '../run/slices.ts';
import type { Watcher } from '../run/watcher.ts';
import { Times } from './times.ts';

/** What was done to a bench, one after the other. An act is begun, and then everything rests. */
type Done = { readonly begin: Action } | { readonly rest: true } | { readonly wait: number };

/** Benches that stand at some past moment each, from which a later one is reached sooner. Our choice. */
const PARKED = 8;

function slicesOf(sim: Simulation, step: Done): Slices<unknown> {
  if ('begin' in step) return sim.beginInSlices(step.begin);
  return 'rest' in step ? sim.restInSlices() : sim.waitInSlices(step.wait);
}

/** A bench on the way through what was done. Turns are counted over all of it. */
class Replay {
  turn = 0;
  private step = 0;
  private underWay: Slices<unknown> | undefined;

  constructor(
    readonly sim: Simulation,
    private readonly steps: readonly Done[],
  ) {}

  go(to: number): void {
    while (this.turn < to) {
      this.underWay ??= slicesOf(this.sim, this.steps[this.step] as Done);
      const isOver = this.underWay.go(1);
      this.turn += 1;
      if (!isOver) continue;
      this.underWay = undefined;
      this.step += 1;
    }
  }
}

/** A running bench that keeps what was done to it. Only through this is anything done to it. */
export class RecordedBench {
  private readonly steps: Done[] = [];
  /** by turn: the simulated time after it [s] */
  private readonly times = new Times();
  /** the one that was used last stands last */
  private readonly parked: Replay[] = [];

  /** As `simulate` has it, at rest. Fails with `plan/…`. */
  static of(plan: Plan, options: Partial<Options> = {}): Outcome<RecordedBench> {
    const found = simulateAsFound(plan, options);
    if (!found.ok) return found;
    const bench = new RecordedBench(plan, options, found.value);
    bench.carryOut({ rest: true });
    return done(bench);
  }

  private constructor(
    private readonly plan: Plan,
    private readonly options: Partial<Options>,
    /** the bench as it is now */
    readonly live: Simulation,
  ) {}

  /** Turns until now. */
  get turns(): number {
    return this.times.length;
  }

  /** As `Simulation.act`. */
  act(act: Action): Outcome<void> {
    const begun = this.carryOut({ begin: act }) as Outcome<void>;
    if (begun.ok) this.carryOut({ rest: true });
    return begun;
  }

  /** As `Simulation.wait`. */
  wait(seconds: number): boolean {
    return this.carryOut({ wait: seconds }) === true;
  }

  /**
   * The bench as it was at this time [s], to be looked at and not touched; of several turns at one time the last. It is the caller's until the next
   * question.
   */
  at(time: number): Simulation {
    return this.atTurn(this.times.until(time));
  }

  /** The bench as it was after so many turns. */
  atTurn(turn: number): Simulation {
    let best = -1;
    for (const [i, { turn: there }] of this.parked.entries()) if (there <= turn && there > (this.parked[best]?.turn ?? -1)) best = i;
    const [known] = best < 0 ? [] : this.parked.splice(best, 1);
    const replay = known ?? this.fresh();
    replay.go(turn);
    this.parked.push(replay);
    if (this.parked.length > PARKED) this.parked.shift();
    return replay.sim;
  }

  /** Lets benches stand at moments spread over all of it, so that each past moment is near one of them. */
  park(): void {
    this.parked.length = 0;
    for (let k = 0; k < PARKED; k++) {
      const replay = this.fresh();
      replay.go(Math.floor((this.turns * k) / PARKED));
      this.parked.push(replay);
    }
  }

  /** All of it once more for somebody who has not watched it: any other pin, or the same ones for longer. */
  again(watcher: Watcher): void {
    const replay = this.fresh();
    replay.sim.tell(watcher);
    replay.go(this.turns);
  }

  private carryOut(step: Done): unknown {
    this.steps.push(step);
    const slices = slicesOf(this.live, step);
    for (let isOver = false; !isOver; ) {
      isOver = slices.go(1);
      this.times.push(this.live.now);
    }
    return slices.result;
  }

  private fresh(): Replay {
    const found = simulateAsFound(this.plan, this.options);
    if (!found.ok) throw new Error(found.failure.says);
    return new Replay(found.value, this.steps);
  }
}
