/** The row of buttons at the bench's corner: meter, zoom, size of print, look, and pictures of the bench. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { present, presenting } from './presentation.ts';
import { chooseTheme, themeNow } from './theme.ts';

/** What the bench has to do when a button is pressed. */
export type ViewAct = 'meter' | 'in' | 'out' | 'whole' | 'svg' | 'png' | 'print';

const ICONS = {
  meter: 'M3 16a7.5 7.5 0 1 1 14 0zM10 15l3.2-5.5',
  out: 'M5 10h10',
  in: 'M5 10h10M10 5v10',
  whole: 'M4 8V4h4M12 4h4v4M16 12v4h-4M8 16H4v-4',
  size: 'M2.5 15l3.5-9 3.5 9M3.8 12h4.4M12 15l2.6-6.5L17.200 15M13 13h3.300M12.500 4h5M15 4v0',
  picture: 'M3 4.500h14v11H3zM3 13l4.200-4 3.300 3 2.500-2 4 3.500M13.300 7.600v0',
  sun: 'M10 6.5a3.5 3.5 0 1 0 0 7a3.5 3.5 0 1 0 0-7M10 2v1.5M10 16.5V18M2 10h1.5M16.5 10H18M4.3 4.3l1 1M14.7 14.7l1 1M4.3 15.7l1-1M14.7 5.3l1-1',
  moon: 'M15.5 12.2A6.5 6.5 0 0 1 7.8 4.5a6.5 6.5 0 1 0 7.7 7.7z',
} as const;

@customElement('view-tools')
export class ViewTools extends LitElement {
  @property({ type: Boolean }) measuring = false;
  @state() private dark = themeNow() === 'dark';
  @state() private large = presenting();
  @state() private picturing = false;

  protected override createRenderRoot() {
    return this;
  }

  /** Larger print for a projector, or the usual one. */
  toggleSize() {
    this.large = !this.large;
    present(this.large);
  }

  private act(what: ViewAct) {
    this.picturing = false;
    this.dispatchEvent(new CustomEvent<ViewAct>('view-act', { detail: what }));
  }

  protected override render() {
    const tool = (name: string, icon: keyof typeof ICONS, act: () => void, pressed?: boolean) => html`<button
      type="button"
      aria-label=${name}
      title=${name}
      aria-pressed=${pressed ?? nothing}
      @click=${act}
    ><svg viewBox="0 0 20 20" aria-hidden="true"><path d=${ICONS[icon]} /></svg></button>`;
    return html`<div class="tools" role="group" aria-label="View and meter">
      ${tool('Meter', 'meter', () => this.act('meter'), this.measuring)}
      ${tool('Zoom out', 'out', () => this.act('out'))}
      ${tool('Zoom in', 'in', () => this.act('in'))}
      ${tool('Whole bench', 'whole', () => this.act('whole'))}
      ${tool('Presentation size', 'size', () => this.toggleSize(), this.large)}
      ${tool(this.dark ? 'Light paper' : 'Dark slate', this.dark ? 'sun' : 'moon', () => {
        this.dark = !this.dark;
        chooseTheme(this.dark ? 'dark' : 'light');
      })}
      <button type="button" aria-label="Picture of the bench" title="Picture of the bench" aria-expanded=${this.picturing}
        @click=${() => {
          this.picturing = !this.picturing;
        }}
      ><svg viewBox="0 0 20 20" aria-hidden="true"><path d=${ICONS.picture} /></svg></button>
    </div>
    ${
      this.picturing
        ? html`<div class="panel pictures" role="group" aria-label="Picture of the bench" @keydown=${(e: KeyboardEvent) => {
            if (e.key !== 'Escape') return;
            e.stopPropagation();
            this.picturing = false;
          }}>
            <button type="button" class="act" @click=${() => this.act('svg')}>Save as SVG</button>
            <button type="button" class="act" @click=${() => this.act('png')}>Save as PNG</button>
            <button type="button" class="act" @click=${() => this.act('print')}>Print</button>
          </div>`
        : nothing
    }`;
  }
}
