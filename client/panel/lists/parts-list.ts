/** The parts list: what each part is, its value and its label, which can be written in, and where it stands. */
import { html, nothing } from 'lit';
import { type EditContext, holeName, parseQuantity, partLookup, setLabel, setParams, siFormat } from '../../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../../state/bench-model.ts';
import { damageIn, replacement } from '../../state/damage-text.ts';
import { digitsSay } from '../../state/display-text.ts';
import type { Session } from '../../state/session.ts';
import { cell } from './cell.ts';
import { rowEvents, rowNoun } from './rows.ts';

export const editContextOf = ({ plan, layout }: BenchModel): EditContext => ({ plan, layout, kinds: partLookup });

export function partsList(session: Session, model: BenchModel) {
  const damage = damageIn(model.plan);
  const digits = session.readings ? digitsSay(session.readings) : undefined;
  return html`<table class="list">
    <caption class="visually-hidden">Parts</caption>
    <thead><tr><th scope="col">part</th><th scope="col">value</th><th scope="col">label</th><th scope="col">where</th></tr></thead>
    <tbody>
      ${model.specimens.map((s) => {
        const { id } = s.part;
        const nets = [...new Set(s.legs.map((l) => l.net))].join(' ');
        return html`<tr data-part=${id} data-nets=${nets} ${rowEvents({ kind: 'part', id }, s.isChip || s.supply ? [] : s.legs.map((l) => l.net))}>
          <th scope="row">${rowNoun('part', id)} <span class="quiet">${s.kind.title}</span>
            ${damage.has(id) ? damaged(session, model, id, damage.get(id) ?? '') : digits?.has(id) ? html`<span class="figures">${digits.get(id)}</span>` : nothing}</th>
          <td>${value(session, model, s)}</td>
          <td>${cell({
            name: `Label of ${id}`,
            value: s.part.label ?? '',
            size: 9,
            session,
            change: (text) => setLabel(editContextOf(model), id, text),
          })}</td>
          <td class="figures">${where(s, model)}</td>
        </tr>`;
      })}
    </tbody>
  </table>`;
}

/** The figure that a part is known by: its first. All others are in the text form. */
function value(session: Session, model: BenchModel, { part, kind, params, isChip }: PlacedPart) {
  const [spec] = kind.params;
  // a part without a value of its own, such as a chip, has figures only for who looks for them
  if (!spec || !kind.value || isChip) return nothing;
  const now = params[spec.name];
  const name = `${spec.name} of ${part.id}`;
  const set = (to: number | string) => setParams(editContextOf(model), part.id, { [spec.name]: to });
  if (spec.type === 'choice') return cell({ name, value: String(now), size: 0, session, choices: spec.choices, change: set });
  if (spec.type === 'text') return cell({ name, value: String(now), size: 12, session, change: set });
  return cell({
    name,
    value: spec.unit === '' ? String(now) : siFormat(Number(now), spec.unit, 12),
    size: 7,
    session,
    change(text) {
      const read = parseQuantity(text, spec.unit === '' || spec.unit === '%' ? undefined : spec.unit);
      return read.ok ? set(read.value) : read;
    },
  });
}

function damaged(session: Session, model: BenchModel, id: string, says: string) {
  const change = replacement(model.plan, id);
  if (!change) return nothing;
  return html`<span class="figures">${says}</span>
    <button type="button" class="plain" aria-label="Replace ${id} in" @click=${() => session.edit(change)}>replace</button>`;
}

function where({ legs }: PlacedPart, { plan }: BenchModel): string {
  const first = legs[0]?.hole;
  const last = legs.length === 2 ? legs[1]?.hole : undefined;
  return first ? `${holeName(first, plan.boards)}${last ? ` ${holeName(last, plan.boards)}` : ''}` : 'beside';
}
