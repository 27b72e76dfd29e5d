/** The way without a card: what a programmer would put into the memories at once, what is missing for that, and whether it is in. */
import { html, nothing } from 'lit';
import { enumeration, sayLeftOut, storedTable, storeTable } from '../../../sim-core/index.ts';
import type { Session } from '../../state/session.ts';

/** Does every memory hold what the table asks of it? */
function isIn({ plan, pins, memories }: Session): boolean {
  const stored = plan?.wanted && storedTable(plan.wanted, memories, pins);
  const { rows = [], dontCare: free } = plan?.wanted ?? {};
  return stored !== undefined && rows.every((value, r) => ((value ^ (stored.values[r] ?? 0)) & ~(free?.[r] ?? 0)) === 0);
}

/** look: 'act' where it is the way to go on, 'plain' beside another. refuse: hears why it cannot be done. */
export function loading(session: Session, look: 'act' | 'plain', refuse: (says: string) => void) {
  const { plan, pins, model } = session;
  if (!plan?.wanted || plan.wanted.outputs.length === 0 || !model) return nothing;
  const memories = model.specimens.filter((s) => s.word).map((s) => s.part.id);
  const left = sayLeftOut(plan.wanted, pins, memories);
  if (left.length > 0)
    return html`<div class="missing"><p>To load an image at once, this is missing:</p><ul>${left.map((says) => html`<li>${says}</li>`)}</ul></div>`;
  const names = enumeration(pins.map((p) => p.memory));
  if (isIn(session))
    return html`<p class="is-in">Every byte that the table wants in ${names} is in. <a href="#build/proof">Prove all rows</a></p>`;
  const put = () => {
    const change = storeTable(plan, pins);
    if (change.ok) session.edit(change.value);
    else refuse(change.failure.says);
  };
  return html`<p class="acts"><button type="button" class=${look} @click=${put}>Load the image at once, as a programmer would</button></p>
    <p class="quiet">It puts the table's bytes into ${names} in one step, whatever the switches are set to. All other bytes stay. One undo reverts it.</p>`;
}
