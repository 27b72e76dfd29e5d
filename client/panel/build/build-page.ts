/** The page *Build*: from the table to a bench, the card that writes it by hand, and the proof that it does what is wanted. */
import { html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Session } from '../../state/session.ts';
import { LightElement } from '../../ui/light-element.ts';
import { hashOf } from '../../ui/route.ts';
import './card-view.ts';
import './plan-form.ts';
import './proof-view.ts';

const VIEWS = [
  ['', 'New bench'],
  ['card', 'Programming card'],
  ['proof', 'Proof'],
] as const;

@customElement('build-page')
export class BuildPage extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  @property() view = '';

  protected override render() {
    const now = VIEWS.find(([view]) => view === this.view)?.[0] ?? '';
    return html`<nav class="build-nav" aria-label="Build">
        ${VIEWS.map(([view, name]) => html`<a href=${hashOf({ page: 'build', ...(view ? { about: view } : {}) })} aria-current=${view === now ? 'page' : 'false'}>${name}</a>`)}
        <a href="#sheet">Build sheet</a>
        <a href="#along">Build along</a>
      </nav>
      ${
        now === 'card'
          ? html`<card-view .session=${this.session}></card-view>`
          : now === 'proof'
            ? html`<proof-view .session=${this.session}></proof-view>`
            : html`<h2 class="headline">Build a bench from a table</h2><plan-form .session=${this.session}></plan-form>`
      }`;
  }
}
