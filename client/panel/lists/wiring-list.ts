/** The wiring list: each wire's two ends and colour, which can be written in, and what the wire is for. */
import { html } from 'lit';
import { recolour, reEnd } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import type { Session } from '../../state/session.ts';
import { cell } from './cell.ts';
import { editContextOf } from './parts-list.ts';
import { rowEvents, rowNoun } from './rows.ts';
import { whatFor } from './what-for.ts';

let last: { readonly of: BenchModel['layout']; readonly says: ReadonlyMap<string, string> } | undefined;

/** Worked out once a layout. */
function purposes(model: BenchModel): ReadonlyMap<string, string> {
  if (last?.of !== model.layout) last = { of: model.layout, says: whatFor(model) };
  return last.says;
}

/** rows: of the first so many wires. */
export function wiringList(session: Session, model: BenchModel, rows: number) {
  const says = purposes(model);
  return html`<table class="list wiring">
    <caption class="visually-hidden">Wires</caption>
    <thead><tr><th scope="col">wire</th><th scope="col">from</th><th scope="col">to</th><th scope="col">colour</th><th scope="col">what for</th></tr></thead>
    <tbody>
      ${model.plan.wires.slice(0, rows).map((l) => {
        const net = model.netOfWire.get(l.id) ?? -1;
        const end = (which: 'from' | 'to') =>
          cell({
            name: `${l.id} ${which}`,
            value: l[which],
            size: 6,
            session,
            change: (text) => reEnd(editContextOf(model), l.id, which, text),
          });
        return html`<tr data-wire=${l.id} data-nets=${net} ${rowEvents({ kind: 'wire', id: l.id }, [net])}>
          <th scope="row">${rowNoun('wire', l.id)}</th>
          <td>${end('from')}</td>
          <td>${end('to')}</td>
          <td>${cell({ name: `Colour of ${l.id}`, value: l.colour, size: 9, session, change: (text) => recolour(editContextOf(model), [l.id], text) })}</td>
          <td>${says.get(l.id)}</td>
        </tr>`;
      })}
    </tbody>
  </table>`;
}
