/** The notebook: its tabs, the page the address names, and whether it is folded away. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Under } from '../scene/hit-text.ts';
import { SessionElement } from '../state/session-element.ts';
import type { ListsPage } from './lists/lists-page.ts';
import './findings-page.ts';
import './limits-page.ts';
import { hashOf, PAGES, type Page, type Route, readRoute } from '../ui/route.ts';
import './why-page.ts';
import { icon } from '../theme/icon.ts';

/** Pages that come when they are first turned to: nothing before needs them. */
const LATER: Readonly<Partial<Record<Page, () => Promise<unknown>>>> = {
  table: () => import('./table/table-page.ts'),
  build: () => import('./build/build-page.ts'),
  lists: () => import('./lists/lists-page.ts'),
};

@customElement('side-panel')
export class SidePanel extends SessionElement {
  protected override readonly hears = ['findings', 'model'] as const;
  @property({ type: Boolean }) folded = false;
  @state() private place = readRoute(location.hash);

  /** the page whose code was asked for last: asking is not free, and every finding and every edit come by here */
  private fetched: Page | undefined;

  /** the view of each page of several views that was open last: its tab goes back there */
  private readonly left = new Map<Page, Route>();

  private readonly turn = () => {
    this.place = readRoute(location.hash);
  };

  protected override willUpdate() {
    const { page, about } = this.place;
    if (page === 'build' || page === 'lists') this.left.set(page, this.place);
    if (page !== this.fetched) void LATER[page]?.();
    this.fetched = page;
    this.toggleAttribute('wide', page === 'table' && about === 'wide' && !this.folded);
  }

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('hashchange', this.turn);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.turn);
  }

  /** those with a tab; the page Limits is reached from other pages */
  private get pages(): readonly Page[] {
    return PAGES.filter((p) => p !== 'limits');
  }

  private heading(page: Page) {
    if (page === 'findings') {
      const n = this.session?.findings.length ?? 0;
      return html`Findings${n > 0 ? html` <span class="count">${n}</span>` : nothing}`;
    }
    return { why: 'Why', table: 'Table', build: 'Build', lists: 'Lists', limits: 'Limits' }[page];
  }

  focusPage() {
    this.querySelector<HTMLElement>('#panel-page')?.focus();
  }

  /** What a pointer or the focus rests on in the scene; touched: it was pressed. */
  pick(under: Under | undefined, touched = false) {
    if (this.place.page !== 'lists') return;
    const lists = this.querySelector<ListsPage>('lists-page');
    if (under && touched) lists?.show?.(under);
    else lists?.pick?.(under);
  }

  private keys(e: KeyboardEvent) {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
    if (step === undefined) return;
    e.preventDefault();
    const at = this.pages.indexOf(this.place.page);
    const next = this.pages[(at + step + this.pages.length) % this.pages.length];
    if (!next) return;
    location.hash = hashOf(this.left.get(next) ?? { page: next });
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(`#tab-${next}`)?.focus());
  }

  private fold() {
    this.dispatchEvent(new CustomEvent('fold', { bubbles: true }));
  }

  protected override render() {
    const { place } = this;
    const page = place.page === 'limits' || this.pages.includes(place.page) ? place.page : 'why';
    const reached = page === 'limits' ? this.pages[0] : page;
    return html`<div class="tab-bar">
        <div role="tablist" aria-label="Pages" @keydown=${this.keys}>
          ${this.pages.map(
            (p) => html`<a
              role="tab"
              id="tab-${p}"
              href=${hashOf(this.left.get(p) ?? { page: p })}
              aria-selected=${p === page}
              aria-controls="panel-page"
              tabindex=${p === reached ? 0 : -1}
              @click=${() => this.folded && this.fold()}
              >${this.heading(p)}</a
            >`,
          )}
        </div>
        <button type="button" class="fold" aria-expanded=${!this.folded} aria-controls="panel-page" @click=${this.fold}>
          <span class="visually-hidden">${this.folded ? 'Show panel' : 'Hide panel'}</span>
          ${icon('M5 3l5 5-5 5', 16)}
        </button>
      </div>
      <div id="panel-page" role="tabpanel" aria-labelledby=${page === 'limits' ? 'limits-title' : `tab-${page}`} tabindex="0" ?hidden=${this.folded}>${this.page(page)}</div>`;
  }

  private page(page: Page) {
    switch (page) {
      case 'why':
        return html`<why-page .session=${this.session} .about=${this.place.about ?? ''}></why-page>`;
      case 'findings':
        return html`<findings-page .session=${this.session}></findings-page>`;
      case 'table':
        return html`<table-page .session=${this.session} ?wide=${this.place.about === 'wide'} ?bytes=${this.place.about === 'bytes'}></table-page>`;
      case 'lists':
        return html`<lists-page .session=${this.session} .view=${this.place.about ?? ''}></lists-page>`;
      case 'build':
        return html`<build-page .session=${this.session} .view=${this.place.about ?? ''}></build-page>`;
      case 'limits':
        return html`<limits-page></limits-page>`;
    }
  }
}
