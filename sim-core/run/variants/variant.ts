/** A bench with one change, made beside the bench that it differs from: what a repair would do, or how a fault would show. */
import { done, type Outcome } from '../../../shared/outcome.ts';
import type { Plan } from '../../../shared/plan.ts';
import { apply, type Change } from '../../document/changes.ts';
import type { Options, Simulation } from '../api.ts';
import { buildCircuit, type Circuit } from '../circuit/circuit.ts';
import { simulate } from '../simulation.ts';

/** A changed bench. Nothing runs until it is asked for. */
export interface Variant {
  readonly plan: Plan;
  readonly circuit: Circuit;
  /** at rest as its plan says it stands, its own and always the same; it skips the time between events, and its contacts do not bounce */
  bench(): Simulation;
}

/**
 * The bench as it stands now, with this change. The base stays as it is, to the bit, and what the change does not touch is not made again.
 * Fails with `plan/…` if no bench can be built so.
 */
export function variant(base: Simulation, change: Change): Outcome<Variant> {
  const plan = apply(base.plan(), change);
  const { drive, overrides } = base.options;
  const circuit = buildCircuit(plan, drive, overrides);
  return circuit.ok ? done(new ChangedBench(plan, circuit.value, { ...base.options, still: true, bounce: false })) : circuit;
}

class ChangedBench implements Variant {
  private running: Simulation | undefined;

  constructor(
    readonly plan: Plan,
    readonly circuit: Circuit,
    private readonly options: Options,
  ) {}

  bench(): Simulation {
    this.running ??= this.start();
    return this.running;
  }

  private start(): Simulation {
    const made = simulate(this.plan, this.options);
    if (!made.ok) throw new Error(made.failure.says);
    return made.value;
  }
}
