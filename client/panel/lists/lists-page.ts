/** The page *Lists*: the same bench as parts, wires, nets and text; all but the nets can be written in. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Under } from '../../scene/hit-text.ts';
import type { Session } from '../../state/session.ts';
import { SessionElement } from '../../state/session-element.ts';
import { hashOf } from '../../ui/route.ts';
import { toLimits } from '../limits-page.ts';
import { netsList } from './nets-list.ts';
import { partsList } from './parts-list.ts';
import type { TextForm } from './text-form.ts';
import './text-form.ts';
import { wiringChoice } from './wiring-choice.ts';
import { wiringList } from './wiring-list.ts';

const VIEWS = ['parts', 'wires', 'nets', 'text'] as const;
type View = (typeof VIEWS)[number];

/** A long list opens with so many rows, and grows by so many a frame: rows that are not in sight yet need not be waited for. */
const [FIRST, MORE] = [40, 60];

@customElement('lists-page')
export class ListsPage extends SessionElement {
  protected override readonly hears = ['model', 'settled'] as const;
  /** the view, as the address names it */
  @property() view = '';
  @query('text-form') private readonly form!: TextForm | null;
  private marked: Element[] = [];
  /** rows of the wire list that are there already */
  @state() private rows = FIRST;
  private growing = false;

  private get shown(): View {
    return VIEWS.find((v) => v === this.view) ?? 'parts';
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('view')) this.rows = FIRST;
  }

  protected override updated() {
    const wires = this.session?.model?.plan.wires.length ?? 0;
    if (this.growing || this.shown !== 'wires' || this.rows >= wires) return;
    this.growing = true;
    // after the paint of those that are there
    requestAnimationFrame(() =>
      setTimeout(() => {
        this.growing = false;
        this.rows += MORE;
      }),
    );
  }

  /** What a pointer or the focus rests on in the scene is picked out in the list too. */
  pick(under: Under | undefined) {
    for (const e of this.marked) e.classList.remove('picked-row');
    const nets = new Set(under?.nets.map(String));
    this.marked = under
      ? [...this.querySelectorAll<HTMLElement>('tr[data-nets]')].filter((row) =>
          under.ref?.kind === 'part' && row.dataset.part
            ? row.dataset.part === under.ref.id
            : row.dataset.nets?.split(' ').some((n) => nets.has(n)) && !this.isBusy(row),
        )
      : [];
    for (const e of this.marked) e.classList.add('picked-row');
  }

  /** A chip is on many nets: it is picked out only when it is meant itself. */
  private isBusy(row: HTMLElement): boolean {
    return (row.dataset.nets?.split(' ').length ?? 0) > 2;
  }

  /** What was touched in the scene comes into sight. */
  show(under: Under) {
    this.pick(under);
    const { ref } = under;
    const row = ref && this.querySelector(ref.kind === 'wire' ? `[data-wire="${ref.id}"]` : `[data-part="${ref.id}"]`);
    (row ?? this.marked[0])?.scrollIntoView({ block: 'nearest' });
    if (ref) this.form?.showThing(ref.id);
  }

  protected override render() {
    const { session } = this;
    const { model } = session ?? {};
    if (!session || !model) return nothing;
    const { plan, nets } = model;
    const counts: Readonly<Record<View, string>> = {
      parts: `Parts ${plan.parts.length}`,
      wires: `Wires ${plan.wires.length}`,
      nets: `Nets ${nets.all.length}`,
      text: 'Text',
    };
    return html`<nav class="list-views" aria-label="Lists">
        ${VIEWS.map((v) => html`<a href=${hashOf({ page: 'lists', about: v })} aria-current=${v === this.shown ? 'page' : nothing}>${counts[v]}</a>`)}
      </nav>
      ${this.shown === 'parts' ? plan.notes.map((n) => html`<p class="quiet">${n}</p>`) : nothing}
      ${this.list(session, model)}
      ${toLimits()}`;
  }

  private list(session: Session, model: NonNullable<Session['model']>) {
    switch (this.shown) {
      case 'parts':
        return html`<div class="list-scroll">${partsList(session, model)}</div>`;
      case 'wires':
        return html`${wiringChoice(session, model)}<div class="list-scroll">${wiringList(session, model, this.rows)}</div>`;
      case 'nets':
        return html`<div class="list-scroll">${netsList(session, model)}</div>`;
      case 'text':
        return html`<text-form .session=${session}></text-form>`;
    }
  }
}
