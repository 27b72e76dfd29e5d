/** Work of the simulation's worker, one task after the other and in slices: between two slices messages are heard, so that what is under way can be stopped. */
import type { Slices } from '../../sim-core/index.ts';
import type { Clock } from './clock.ts';

/** What takes long goes on for so long before messages are heard [ms]. */
export const SLICE = 50;
/** So many turns of the simulator between two looks at the clock: 20 to 100 µs each as a rule. */
const TURNS = 20;

/** Yields where messages may be heard. */
export type Task<T = void> = Generator<void, T, void>;

export class TaskQueue {
  private waiting: ReadonlyArray<() => Task> = [];
  private current: Task | undefined;
  /** the current task was asked to stop */
  private stopping = false;
  /** when the slice began [ms] */
  private sliceAt = 0;

  /** alive: told after each slice that another one follows. */
  constructor(
    private readonly clock: Clock,
    private readonly alive: () => void,
  ) {}

  /** At once, if nothing is under way. */
  do(task: () => Task): void {
    this.waiting = [...this.waiting, task];
    if (!this.current) this.next();
  }

  get busy(): boolean {
    return this.current !== undefined;
  }
  /** was the task that is under way asked to stop? */
  get stopped(): boolean {
    return this.stopping;
  }

  /** What is under way ends where it is; what waits follows. */
  stop(): void {
    if (this.current) this.stopping = true;
  }

  /** For tasks: goes through simulated time until it is over or the task is stopped. */
  *through<T extends object | boolean>(slices: Slices<T>): Task<T> {
    while (!this.stopping && !slices.go(TURNS)) if (this.clock.now() - this.sliceAt >= SLICE) yield;
    slices.stop();
    if (slices.result === undefined) throw new Error('Slices that are over have no result');
    return slices.result;
  }

  private next(): void {
    const [first, ...others] = this.waiting;
    if (!first) return;
    [this.waiting, this.stopping, this.current] = [others, false, first()];
    this.goOn(this.current);
  }

  private goOn(task: Task): void {
    this.sliceAt = this.clock.now();
    if (task.next().done) {
      this.current = undefined;
      this.next();
      return;
    }
    this.alive();
    this.clock.after(0, () => this.goOn(task));
  }
}
