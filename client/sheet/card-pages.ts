/** The programming card on paper, for memories as they are or erased: where the switches stand at the start, then byte by byte what to move and what the LEDs must show. */

import { html, nothing } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import { done, type MemoryCard, type Outcome } from '../../sim-core/index.ts';
import { closedAtStart } from '../panel/build/card-follow.ts';
import { cardList, sayEffort, sayMoves, sayTime } from '../panel/build/card-list.ts';
import type { BenchModel } from '../state/bench-model.ts';
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

/** hands: where the switches stand before the first byte of the first card. head: the heading of a memory's part. */
export function cardPages(cards: readonly MemoryCard[], switches: Plan['switches'], model: BenchModel, head: (memory: string) => unknown) {
  const [first] = cards;
  if (!first) return nothing;
  const seconds = cards.reduce((n, c) => n + c.seconds, 0);
  const closed = closedAtStart(cards, switches);
  return html`<p>${cards.length > 1 ? `${cards.length} memories, one after the other, about ${sayTime(seconds)} in all. ` : ''}${closed.length === 0 ? 'Start with all switches of the bench open.' : html`Start with these switches as they are on this bench: ${sayMoves(closed, model)}; all others open.`}
      Then switch the supply on and wait a moment: a memory cannot be written right after power-up.</p>
    ${cards.map(
      (c) => html`<section>${head(c.memory)}
        <p>${sayEffort(c, model.plan.wanted?.rows.length)} First ${sayMoves(c.toWrite, model)}.</p>
        ${cardList(c, model, { done: () => false, paper: true })}
        <p>To read back: ${sayMoves(c.toRead, model)}. Then set each address once more and tick it if the LEDs show what the card says.</p></section>`,
    )}`;
}
