/** A bench with one change, made beside the bench that it differs from: what a repair would do, or how a fault would show. */
import { done, type Outcome } from '../../../shared/outcome.ts';
import type { Plan } from '../../../shared/plan.ts';
import { apply, type Change } from '../../document/changes.ts';
import type { Options, Simulation } from '../api.ts';
import { buildCircuit, type Circuit, checkContents } from '../circuit/circuit.ts';
import { simulate } from '../simulation.ts';
import { type BenchBlocks, type LaidBench, Workshop } from './bench-blocks.ts';

/** A changed bench. Nothing is built or runs until it is asked for. */
export interface Variant {
  readonly plan: Plan;
  readonly circuit: Circuit;
  /** at rest as its plan says it stands, its own and always the same; it skips the time between events, and its contacts do not bounce */
  bench(): Simulation;
  /** undefined where its rows need a circuit */
  blocks(): BenchBlocks | undefined;
}

/** By base: what its variants share. */
const workshops = new WeakMap<Simulation, Map<string, Workshop>>();

function workshopOf(base: Simulation, plan: Plan): Workshop {
  const all = workshops.get(base) ?? new Map<string, Workshop>();
  workshops.set(base, all);
  const { drive = plan.outputs ?? 'typical', overrides } = base.options;
  const workshop = all.get(drive) ?? new Workshop(drive, overrides);
  all.set(drive, workshop);
  return workshop;
}

/**
 * The bench as it stands now, with this change. The base stays as it is, to the bit, and the solved state of every part that the change does not touch is kept.
 * Fails with `plan/…` if no bench can be built so.
 */
export function variant(base: Simulation, change: Change): Outcome<Variant> {
  const plan = apply(base.plan(), change);
  const laid = workshopOf(base, plan).layOut(plan);
  if (!laid.ok) return laid;
  const contents = checkContents(plan, (id) => laid.value.parts.find((p) => p.placed.part.id === id)?.chips[0]?.site.spec);
  if (!contents.ok) return contents;
  return done(new ChangedBench(plan, { ...base.options, still: true, bounce: false }, laid.value));
}

class ChangedBench implements Variant {
  private built: Circuit | undefined;
  private running: Simulation | undefined;

  constructor(
    readonly plan: Plan,
    private readonly options: Options,
    private readonly laid: LaidBench,
  ) {}

  get circuit(): Circuit {
    this.built ??= certain(buildCircuit(this.plan, this.options.drive, this.options.overrides));
    return this.built;
  }

  bench(): Simulation {
    this.running ??= certain(simulate(this.plan, this.options));
    return this.running;
  }

  blocks(): BenchBlocks | undefined {
    return this.laid.blocks();
  }
}

/** It was laid out before, and what it holds was looked at. */
function certain<T>(made: Outcome<T>): T {
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}
