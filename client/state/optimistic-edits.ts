/**
 * Edits are made on the page at once, and by the worker one after the other: what is shown is the worker's bench with all edits on top that it has not
 * answered yet. An answer that differs, a refusal, and whatever else the worker tells of its bench goes underneath, and the edits are laid on it again.
 */
import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { after, apply, type Change, changeOf, done, type History, type Outcome, rebase, type Step } from '../../sim-core/index.ts';

/** A plan, and what was done to it. */
interface Made {
  readonly plan: Plan;
  readonly history: History;
}

export class OptimisticEdits {
  /** the worker's bench, as far as it has told; undefined before the first bench */
  private certain: Made | undefined;
  /** the same with all edits that are under way */
  private ahead: Made | undefined;
  /** edits that the worker has not answered, oldest first; the first is at the worker */
  private steps: readonly Step[] = [];

  /** fits: can this plan stand? send: asks the worker to change its bench, which is this plan. */
  constructor(
    private readonly fits: (plan: Plan) => Outcome<unknown>,
    private readonly send: (change: Change, plan: Plan) => void,
  ) {}

  /** with all edits that are under way; undefined before the first bench */
  get shown(): Made | undefined {
    return this.ahead;
  }
  /** are there edits that the worker has not answered? */
  get waiting(): boolean {
    return this.steps.length > 0;
  }

  /** Makes it at once, or says why it cannot be; nothing to undo is no failure. */
  ask(step: Step): Outcome<void> {
    if (!this.ahead) return done(undefined);
    const next = this.after(this.ahead, step);
    if (!next.ok) return next;
    if (next.value !== this.ahead) {
      this.ahead = next.value;
      this.steps = [...this.steps, step];
      if (this.steps.length === 1) this.sendFirst();
    }
    return done(undefined);
  }
  /** The worker has made the first of those under way, in this form; the rows of the plan's wanted table are the page's own. */
  made(change: Change, plan: Plan): void {
    const { certain } = this;
    const [step] = this.steps;
    if (certain && step) {
      const { wanted } = apply(certain.plan, change);
      const whole = wanted ? { ...plan, wanted } : plan;
      this.certain = { plan: sameWhereAlike(whole, this.ahead?.plan), history: after(certain.history, step, change) };
    }
    this.answered();
  }
  /** The worker could not make the first of those under way. */
  refused(): void {
    this.answered();
  }
  /** The worker's bench has changed by itself. */
  became(change: (plan: Plan) => Plan): void {
    if (!this.certain) return;
    this.certain = { ...this.certain, plan: sameWhereAlike(change(this.certain.plan), this.ahead?.plan) };
    this.layAgain();
  }
  /** Another bench stands. */
  begin(made: Made): void {
    [this.certain, this.ahead, this.steps] = [made, made, []];
  }
  /** Another bench has been asked for: what waits was meant for this one, and only what the worker has already is still answered. */
  drop(): void {
    this.steps = this.steps.slice(0, 1);
    this.layAgain();
  }

  /** The worker will answer none of those under way. */
  abandon(): void {
    this.steps = [];
    this.layAgain();
  }

  private after(now: Made, step: Step): Outcome<Made> {
    const change = changeOf(now.history, step);
    if (!change) return done(now);
    const made = rebase(now.plan, change);
    const plan = apply(now.plan, made);
    const stands = this.fits(plan);
    return stands.ok ? done({ plan, history: after(now.history, step, made) }) : stands;
  }
  private layAgain(): void {
    this.ahead = this.steps.reduce((now: Made | undefined, step) => {
      const next = now && this.after(now, step);
      return next?.ok ? next.value : now;
    }, this.certain);
  }
  private sendFirst(): void {
    while (this.certain && this.steps.length > 0) {
      const [step, ...others] = this.steps;
      const change = step && changeOf(this.certain.history, step);
      if (change) {
        this.send(change, this.certain.plan);
        return;
      }
      this.steps = others;
    }
  }
  private answered(): void {
    this.steps = this.steps.slice(1);
    this.layAgain();
    this.sendFirst();
  }
}

/** What came from the worker as a copy, with the page's own objects where they say the same: what has not changed is then known at sight. */
function sameWhereAlike(plan: Plan, before: Plan | undefined): Plan {
  if (!before) return plan;
  const images = Object.entries(plan.memories).map(([id, image]) => [id, alike(image, before.memories[id])]);
  return {
    ...plan,
    boards: alikeList(plan.boards, before.boards),
    parts: alikeList(plan.parts, before.parts),
    wires: alikeList(plan.wires, before.wires),
    meters: alikeList(plan.meters, before.meters),
    memories: alike(Object.fromEntries(images), before.memories),
    ...(plan.wanted ? { wanted: alike(plan.wanted, before.wanted) } : {}),
  };
}

const alike = <T>(now: T, before: T | undefined): T => (before !== undefined && sameValue(now, before) ? before : now);

function alikeList<T extends { readonly id: string }>(now: T[], before: T[]): T[] {
  const was = new Map(before.map((x) => [x.id, x]));
  const list = now.map((x) => alike(x, was.get(x.id)));
  return alike(list, before);
}
