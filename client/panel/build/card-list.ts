/** The programming card as a table: bytes in the order of fewest moves, what to move for each, what the LEDs show at read-back, and a box to tick. */
import { html, nothing } from 'lit';
import { grouped, hex, type MemoryCard, type PoleAt } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import { poleName } from './card-follow.ts';

export interface Ticks {
  readonly done: (k: number) => boolean;
  /** where it stands now; undefined: it is not followed */
  readonly now?: number;
  /** for a pen: a second box, for what is seen at read-back */
  readonly paper?: true;
  readonly tick?: (k: number, is: boolean) => void;
}

/** "S1: close 1 (hot), open 3 (dark)" in few words, switch by switch. */
export function sayMoves(moves: readonly PoleAt[], model: BenchModel) {
  return moves.length === 0
    ? 'nothing'
    : moves.map(
        (p, i) =>
          html`${i > 0 ? ', ' : ''}<span class="move"><b class=${p.closed ? 'close' : 'open'}>${p.closed ? 'close' : 'open'}</b> ${poleName(p, model)}</span>`,
      );
}

/** Time with what a person can plan by. */
export const sayTime = (seconds: number): string => (seconds < 90 ? `${Math.round(seconds)} s` : `${Math.round(seconds / 60)} min`);

/** rows: of the table; those that have no step need none. */
export function sayEffort({ steps, flips, atLeast, exact, flipsAscending, seconds }: MemoryCard, rows = steps.length): string {
  const bytes = steps.length === 1 ? 'One byte' : `${grouped(steps.length)} bytes`;
  const proven = exact || flips === atLeast ? 'proven the fewest' : `at most ${grouped(flips - atLeast)} more than the fewest`;
  const saved = flipsAscending > flips ? `; in address order it would be ${grouped(flipsAscending)}` : '';
  const right = rows - steps.length;
  const rest = right <= 0 ? '' : right === 1 ? ' The other row is already right.' : ` The other ${grouped(right)} rows are already right.`;
  return `${bytes}, ${grouped(flips)} switch moves (${proven}${saved}), about ${sayTime(seconds)}.${rest}`;
}

export function cardList(card: MemoryCard, model: BenchModel, ticks: Ticks) {
  const digits = Math.max(2, Math.ceil((model.specimen.get(card.memory)?.legs.filter((l) => /^A\d/.test(l.pin.name)).length ?? 8) / 4));
  const outputs = model.plan.wanted?.outputs ?? [];
  return html`<div class="table-scroll" tabindex="0" role="group" aria-label="Programming card of ${card.memory}, scrolls"><table class="card-table">
    <caption class="visually-hidden">Bytes of ${card.memory} in writing order</caption>
    <thead><tr><th scope="col">done</th><th scope="col">address</th><th scope="col">byte</th><th scope="col">switch, then press ${card.button}</th><th scope="col">lit when read back</th>${ticks.paper ? html`<th scope="col">seen</th>` : nothing}</tr></thead>
    <tbody>${card.steps.map(
      (s, k) => html`<tr aria-current=${ticks.now === k ? 'step' : nothing}>
        <td>${
          ticks.tick
            ? html`<input type="checkbox" aria-label="${hex(s.byte, 2)} at 0x${hex(s.address, digits)} is in" .checked=${ticks.done(k)}
                @change=${(e: Event) => ticks.tick?.(k, (e.target as HTMLInputElement).checked)} />`
            : html`<span class="box" aria-hidden="true"></span>`
        }</td>
        <th scope="row"><code>${hex(s.address, digits)}</code></th>
        <td><code>${hex(s.byte, 2)}</code></td>
        <td class="moves">${sayMoves(s.moves, model)}</td>
        <td>${s.lit.map((i) => outputs[i]?.name).join(', ') || 'none'}</td>
        ${ticks.paper ? html`<td><span class="box" aria-hidden="true"></span></td>` : nothing}
      </tr>`,
    )}</tbody>
  </table></div>`;
}
