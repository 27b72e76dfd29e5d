/** The page *Bench*: what stands on the bench as a list, for reading aloud and for looking things up. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { holeName, type Ref, siFormat } from '../core.ts';
import { damageIn, replacement } from '../damage.ts';
import { Listen } from '../listen.ts';
import type { Session } from '../session.ts';
import { digitsSay } from '../shown.ts';
import type { Specimen, Standing } from '../standing.ts';
import { toLimits } from './limits-page.ts';
import { say } from './say.ts';

@customElement('bench-page')
export class BenchPage extends LitElement {
  @property({ attribute: false }) session: Session | undefined;

  constructor() {
    super();
    new Listen(this, () => this.session, ['standing', 'settled']);
  }

  protected override createRenderRoot() {
    return this;
  }

  protected override render() {
    const { standing, readings } = this.session ?? {};
    if (!standing || !readings) return nothing;
    const { plan } = standing;
    const damage = damageIn(plan);
    const digits = digitsSay(readings);
    return html`<h2 class="headline">${plan.title}</h2>
      ${plan.notes.map((n) => html`<p>${n}</p>`)}
      <h3 class="section">Parts</h3>
      <ul class="things">
        ${standing.specimens.map((s) => html`<li>${noun('part', s.part.id)} ${partSays(s, standing)}${this.stateOf(s.part.id, damage.get(s.part.id), digits.get(s.part.id))}</li>`)}
      </ul>
      <h3 class="section">Leads</h3>
      <ul class="things">
        ${plan.leads.map((l) => html`<li>${noun('lead', l.id)} ${l.colour}, ${l.from} to ${l.to}</li>`)}
      </ul>
      <h3 class="section">Nets</h3>
      <ul class="things">
        ${standing.nets.all.map((net) => {
          const now = readings.nets[net.index];
          const legs = net.legs.map((l) => `${l.part.id}.${l.pin}`);
          return html`<li>${legs.length > 0 ? legs.join(', ') : net.ends.map((e) => `${e.lead.id} ${e.end}`).join(', ')}
            <span class="figures">${now ? `${siFormat(Math.abs(now.volts) < 1e-4 ? 0 : now.volts, 'V')}, ${HELD[now.held]}` : ''}</span></li>`;
        })}
      </ul>
      ${toLimits()}`;
  }

  private stateOf(part: string, damage: string | undefined, shows: string | undefined) {
    const { session } = this;
    const change = session?.standing && replacement(session.standing.plan, part);
    if (!damage || !change) return shows === undefined ? nothing : html`<span class="figures">${shows}</span>`;
    return html`<span class="figures">${damage}</span>
      <button type="button" class="plain" aria-label="Put a new ${part} in" @click=${() => session.edit(change)}>put a new one in</button>`;
  }
}

export const HELD = {
  driven: 'driven',
  weak: 'held by a resistor',
  air: 'floating',
  fight: 'fought over',
  unknown: 'not known',
} as const;

const noun = (kind: Ref['kind'], id: string) => say([{ text: id, ref: { kind, id } }]);

function partSays({ part, kind, params, legs }: Specimen, { plan }: Standing): string {
  const value = kind.value?.(params);
  const first = legs[0]?.hole;
  const last = legs.length === 2 ? legs[1]?.hole : undefined;
  const where = first ? `at ${holeName(first, plan.boards)}${last ? ` to ${holeName(last, plan.boards)}` : ''}` : 'beside the boards';
  return [part.label, kind.title, value, where].filter(Boolean).join(', ');
}
