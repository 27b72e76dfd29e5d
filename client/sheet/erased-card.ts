/** The card of a bench for memories that hold nothing yet, as those in a person's hand: its switches begin open, whatever was set on the screen. */
import type { Plan } from '../../shared/plan.ts';
import { done, type MemoryCard, type Outcome } from '../../sim-core/index.ts';
import { closedAtStart } from '../panel/build/card-follow.ts';
import type { JobClient } from '../worker/job-client.ts';

export interface ErasedCard {
  readonly cards: readonly MemoryCard[];
  /** where the switches stand before the first byte */
  readonly switches: Plan['switches'];
}

/** undefined: it was ended before it came to a result */
export async function erasedCard(jobs: JobClient, plan: Plan): Promise<Outcome<ErasedCard> | undefined> {
  const { cells: _, ...bare } = plan;
  const cardsFor = (switches: Plan['switches']) => jobs.begin({ job: 'card', plan: { ...bare, switches, memories: {} } });
  const first = await cardsFor(plan.switches);
  if (!first?.ok) return first;
  const closed = closedAtStart(first.value, plan.switches);
  if (closed.length === 0) return done({ cards: first.value, switches: plan.switches });
  const switches = Object.fromEntries(
    Object.entries(plan.switches).map(([part, poles]) => [
      part,
      poles.map((is, pole) => is && !closed.some((c) => c.part === part && c.pole === pole)),
    ]),
  );
  const again = await cardsFor(switches);
  return again?.ok ? done({ cards: again.value, switches }) : again;
}
