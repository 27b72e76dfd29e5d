/** Whether a bench that is waited for goes on for ever: levels pass their marks too often, or the same states come again and again. */
import type { BuiltCircuit } from './built-circuit.ts';
import { type MovingInput, oscillationsOf } from './digital/oscillations.ts';
import type { Oscillation } from './readout/readings.ts';
import { Repeats } from './repeats.ts';
import { SettleLimits } from './settle-limits.ts';

export class Restlessness {
  private readonly built: () => BuiltCircuit;
  private readonly settleLimits = new SettleLimits();
  private readonly repeats = new Repeats();
  /** states come again and again */
  private repeated = false;

  constructor(built: () => BuiltCircuit) {
    this.built = built;
  }

  /** the bench is waited for again, or its marks have other numbers */
  begin(): void {
    this.settleLimits.begin(this.built().runtime.watches.list.length);
    this.repeats.begin();
    this.repeated = false;
  }

  contactMoved(): void {
    this.settleLimits.contactMoved();
    this.repeats.begin();
  }

  /** values of the network have changed, and no clock has begun it */
  jumped(now: number): void {
    const { circuit, solver } = this.built();
    if (this.repeats.jumped(() => circuit.network.state(), solver.x, now)) this.repeated = true;
  }

  /** as SettleLimits.count */
  count(passed: Int32Array, now: number, due: boolean, byClock: boolean): Int32Array {
    return this.settleLimits.count(passed, now, due, byClock);
  }

  /** Some loop goes round and round. dirty: values have changed that nothing has answered yet. */
  isSure(now: number, dirty: boolean): boolean {
    // not in the middle of an edge, which would be shown as if it lasted
    const repeated = this.repeated && !dirty && (this.built().solver.resting() || now >= this.repeats.settledAt());
    return repeated || this.settleLimits.restless();
  }

  /** What moves, of a bench that was waited for and did not come to rest. */
  oscillations(): readonly Oscillation[] {
    const { circuit, runtime } = this.built();
    const moving: MovingInput[] = [];
    for (const watch of runtime.watches.list.keys()) {
      const at = this.settleLimits.returns(watch) ? runtime.inputAt(watch) : undefined;
      if (at) moving.push({ ...at, period: this.settleLimits.period(watch) });
    }
    const loops = oscillationsOf(circuit, moving);
    const [only] = loops;
    // one that goes to and fro more than once a period is known by its states
    return only && loops.length === 1 && this.repeated ? [{ ...only, period: this.repeats.period() }] : loops;
  }
}
