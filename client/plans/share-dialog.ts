/** To share the bench that stands: a link that may be edited or only operated, and its QR code. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { grouped, type Outcome } from '../../sim-core/index.ts';
import { LightElement } from '../ui/light-element.ts';
import type { LinkFor } from './plan-link.ts';
import { QR_MOST, qrPath } from './qr-path.ts';
import './share-dialog.css';

/** The code is at most so wide, and leaves so much of a narrow window's width [px]. */
const [WIDEST, BESIDE] = [608, 82];

/** A width at which every square has the same whole number of the screen's own pixels: a camera reads such a code best [px]. */
function sharpWidth(size: number): number {
  const room = Math.min(WIDEST, innerWidth - BESIDE);
  return (Math.max(1, Math.floor((room * devicePixelRatio) / size)) * size) / devicePixelRatio;
}

const WAYS: ReadonlyArray<readonly [opened: LinkFor, says: string]> = [
  ['edit', 'To edit: whoever opens it has a bench of their own.'],
  ['operate', 'Read-only: switches and buttons work, parts and wires stay.'],
];

@customElement('share-dialog')
export class ShareDialog extends LightElement {
  @property({ attribute: false }) link: (opened: LinkFor) => Promise<Outcome<string>> | undefined = () => undefined;
  @state() private opened: LinkFor = 'edit';
  @state() private made: Outcome<string> | undefined;
  @state() private said = '';
  @query('dialog') private readonly dialog!: HTMLDialogElement;

  async show() {
    await this.choose(this.opened);
    await this.updateComplete;
    if (!this.dialog.open) this.dialog.showModal();
  }

  private async choose(opened: LinkFor) {
    [this.opened, this.said] = [opened, ''];
    this.made = await this.link(opened);
  }

  private async copy(link: string) {
    try {
      await navigator.clipboard.writeText(link);
      this.said = 'Link copied.';
    } catch {
      this.querySelector<HTMLInputElement>('.share-link input')?.select();
      this.said = 'The link is selected. Copy it from there.';
    }
  }

  protected override render() {
    const { made } = this;
    return html`<dialog class="share" aria-labelledby="share-head" @click=${(e: Event) => e.target === this.dialog && this.dialog.close()}>
      <div class="share-page">
        <header>
          <h2 id="share-head">Share this bench</h2>
          <button type="button" class="plain" @click=${() => this.dialog.close()}>Close</button>
        </header>
        <fieldset>
          <legend class="visually-hidden">What the link is for</legend>
          ${WAYS.map(([opened, says]) => html`<label><input type="radio" name="opened" .checked=${opened === this.opened} @change=${() => void this.choose(opened)} /> ${says}</label>`)}
        </fieldset>
        ${made?.ok ? this.shared(made.value) : nothing}
        ${made && !made.ok ? html`<p role="alert">${made.failure.says}</p>` : nothing}
        <p class="quiet">The link holds the whole bench as it is now. Nothing is stored on a server.</p>
      </div>
    </dialog>`;
  }

  private shared(link: string) {
    const path = qrPath(link);
    return html`<p class="share-link">
        <input readonly aria-label="Link" .value=${link} @focus=${(e: Event) => (e.target as HTMLInputElement).select()} />
        <button type="button" class="act" @click=${() => void this.copy(link)}>Copy</button>
      </p>
      <p class="said" role="status">${this.said}</p>
      ${
        path
          ? html`<svg class="qr" role="img" aria-label="QR code of the link" style=${`width:${sharpWidth(path.size)}px`} viewBox=${`0 0 ${path.size} ${path.size}`}><path d=${path.d} /></svg>`
          : html`<p>The link has ${grouped(link.length)} characters, and a QR code holds ${grouped(QR_MOST)}. Send the link, or save the bench as a file.</p>`
      }`;
  }
}
