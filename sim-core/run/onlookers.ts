/** Who looks at a running bench at every moment: its probes, the recorder of its pins, and what knows how far its supplies dip. */
import type { ChipEvent } from '../parts/part.ts';
import type { BuiltCircuit } from './built-circuit.ts';
import { Probes } from './readout/probes.ts';
import { Recorder, type Trace } from './readout/recorder.ts';
import type { Watcher } from './watcher.ts';

export class Onlookers {
  readonly probes = new Probes();
  private readonly built: () => BuiltCircuit;
  /** while somebody looks at pins in time */
  private recorder: Recorder | undefined;
  private watcher: Watcher | undefined;
  /** of the step under way: when it began, and how much of it has been shown [s] */
  private began = 0;
  private shown = 0;

  constructor(built: () => BuiltCircuit) {
    this.built = built;
  }

  watch(parts: readonly string[], now: number): void {
    if (parts.length === 0) this.recorder = undefined;
    else {
      if (!this.recorder) {
        this.recorder = new Recorder();
        this.attach();
      }
      this.recorder.watch(parts);
      this.note(now);
    }
  }

  /** who is told of every moment from now on, if anybody */
  tell(watcher: Watcher | undefined, now: number): void {
    this.watcher = watcher;
    watcher?.attached(this.built());
    if (watcher) this.note(now);
  }

  get traces(): readonly Trace[] {
    return this.recorder?.traces ?? [];
  }

  /** the bench has been put together again */
  attach(): void {
    this.recorder?.attach(this.built().runtime);
    this.watcher?.attached(this.built());
  }

  reported(event: ChipEvent, now: number): void {
    this.recorder?.reported(event, now);
  }

  handBegins(): void {
    this.probes.begin();
    this.built().droops?.clear();
  }

  /** at rest, or left moving */
  rested(now: number): void {
    this.recorder?.rested(now);
  }

  /** voltages as they are now */
  note(now: number): void {
    if (!this.recorder && !this.watcher && !this.probes.any()) return;
    const { solver } = this.built();
    solver.complete();
    this.recorder?.note(now, solver.x);
    this.watcher?.note(now, solver.x);
    this.probes.note(solver.x);
  }

  /** voltages have jumped to where they are now */
  jumped(now: number): void {
    const { solver, droops } = this.built();
    droops?.look(solver.x, solver.end, 0, solver.resting());
    this.note(now);
  }

  /** a step begins now: who is shown moments within it, if anybody is */
  begin(now: number): ((moved: number, x: Float64Array) => void) | undefined {
    this.began = now;
    this.shown = 0;
    return this.recorder || this.watcher || this.probes.any() || this.built().droops ? this.show : undefined;
  }

  /** it has ended after so long [s] */
  stepped(moved: number): void {
    const { solver, droops } = this.built();
    droops?.look(solver.x, solver.end, moved - this.shown, solver.resting());
  }

  private readonly show = (moved: number, x: Float64Array): void => {
    const { solver, droops } = this.built();
    droops?.look(x, solver.end, moved - this.shown, false);
    this.recorder?.note(this.began + moved, x);
    this.watcher?.note(this.began + moved, x);
    this.probes.note(x);
    this.shown = moved;
  };
}
