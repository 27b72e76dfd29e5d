/** The programming card on paper: where the switches stand at the start, then byte by byte what to move and what the LEDs must show, with boxes for both. */
import { html, nothing } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import type { MemoryCard } from '../../sim-core/index.ts';
import { closedAtStart } from '../panel/build/card-follow.ts';
import { cardList, sayEffort, sayMoves, sayTime } from '../panel/build/card-list.ts';
import type { BenchModel } from '../state/bench-model.ts';

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
