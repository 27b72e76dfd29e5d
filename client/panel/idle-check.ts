/** What a check of the whole bench finds, asked for on a copy once the bench has been left alone for a moment: no act waits for it. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import { type Clock, systemClock } from '../worker/clock.ts';
import { JobClient } from '../worker/job-client.ts';
import type { SaidFinding } from '../worker/protocol.ts';

/** So long nothing has been changed [ms]; our choice. */
const LEFT_ALONE = 1000;

type Jobs = Pick<JobClient, 'begin' | 'end' | 'close'>;

/** What is on the bench; where its switches stand is tried anyway. */
const thingsOf = ({ boards, parts, wires, memories, cells, wanted }: Plan): readonly unknown[] => [
  boards,
  parts,
  wires,
  memories,
  cells,
  wanted,
];

export class IdleCheck implements ReactiveController {
  /** of the bench that stands; undefined until it is known */
  findings: readonly SaidFinding[] | undefined;
  private of: readonly unknown[] = [];
  private callOff = () => {};

  /** plan: the bench; undefined: there is none to be checked, as while its supply is off */
  constructor(
    private readonly host: Pick<ReactiveControllerHost, 'requestUpdate'>,
    private readonly plan: () => Plan | undefined,
    private readonly jobs: Jobs = new JobClient(),
    private readonly clock: Clock = systemClock,
  ) {}

  hostUpdate() {
    const plan = this.plan();
    const of = plan ? thingsOf(plan) : [];
    if (of.length === this.of.length && of.every((thing, i) => thing === this.of[i])) return;
    this.of = of;
    this.findings = undefined;
    this.callOff();
    this.jobs.end();
    if (plan) this.callOff = this.clock.after(LEFT_ALONE, () => void this.check(plan, of));
  }

  hostDisconnected() {
    this.callOff();
    this.of = [];
    this.jobs.close();
  }

  private async check(plan: Plan, of: readonly unknown[]) {
    const answer = await this.jobs.begin({ job: 'check', plan });
    if (!answer?.ok || this.of !== of) return;
    this.findings = answer.value;
    this.host.requestUpdate();
  }
}
