/** The wiring list: each lead's two ends and colour, which can be written in, and what the lead is for. */
import { html } from 'lit';
import { recolour, reEnd } from '../core.ts';
import type { Session } from '../session.ts';
import type { Standing } from '../standing.ts';
import { cell } from './cell.ts';
import { groundOf } from './parts-list.ts';
import { noun, rowEvents } from './rows.ts';
import { whatFor } from './what-for.ts';

let last: { readonly of: Standing['layout']; readonly says: ReadonlyMap<string, string> } | undefined;

/** Worked out once a layout. */
function purposes(standing: Standing): ReadonlyMap<string, string> {
  if (last?.of !== standing.layout) last = { of: standing.layout, says: whatFor(standing) };
  return last.says;
}

/** rows: of the first so many leads. */
export function wiringList(session: Session, standing: Standing, rows: number) {
  const says = purposes(standing);
  return html`<table class="list wiring">
    <caption class="visually-hidden">Leads</caption>
    <thead><tr><th scope="col">lead</th><th scope="col">from</th><th scope="col">to</th><th scope="col">colour</th><th scope="col">what for</th></tr></thead>
    <tbody>
      ${standing.plan.leads.slice(0, rows).map((l) => {
        const net = standing.netOfLead.get(l.id) ?? -1;
        const end = (which: 'from' | 'to') =>
          cell({
            name: `${l.id} ${which}`,
            value: l[which],
            size: 6,
            session,
            change: (text) => reEnd(groundOf(standing), l.id, which, text),
          });
        return html`<tr data-lead=${l.id} data-nets=${net} ${rowEvents({ kind: 'lead', id: l.id }, [net])}>
          <th scope="row">${noun('lead', l.id)}</th>
          <td>${end('from')}</td>
          <td>${end('to')}</td>
          <td>${cell({ name: `Colour of ${l.id}`, value: l.colour, size: 9, session, change: (text) => recolour(groundOf(standing), [l.id], text) })}</td>
          <td>${says.get(l.id)}</td>
        </tr>`;
      })}
    </tbody>
  </table>`;
}
