/** The row of buttons at the bench's corner: each types a line that could be typed by hand. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { icon } from './icon.ts';
import { presenting } from './presentation.ts';
import { themeNow } from './theme.ts';

const ICONS = {
  line: 'M3 5l4 4-4 4M9 14h8',
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
  /** pixels to a drawing unit */
  @property({ type: Number }) zoom = 1;
  @state() private dark = themeNow() === 'dark';
  @state() private large = presenting();
  @state() private picturing = false;
  private readonly watcher = new MutationObserver(() => {
    this.dark = document.documentElement.dataset.theme === 'dark';
    this.large = presenting();
  });

  protected override createRenderRoot() {
    return this;
  }

  override connectedCallback() {
    super.connectedCallback();
    this.watcher.observe(document.documentElement, { attributeFilter: ['data-theme', 'data-size'] });
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.watcher.disconnect();
  }

  private type(line: string) {
    this.picturing = false;
    this.dispatchEvent(new CustomEvent<string>('typed', { detail: line }));
  }

  private tool(name: string, sign: keyof typeof ICONS, act: string | (() => void), pressed?: boolean) {
    return html`<button
      type="button"
      aria-label=${name}
      title=${name}
      aria-pressed=${pressed ?? nothing}
      @click=${() => (typeof act === 'string' ? this.type(act) : act())}
    >${icon(ICONS[sign])}</button>`;
  }

  protected override render() {
    return html`<div class="tools" role="group" aria-label="View and meter">
        ${this.tool('Meter', 'meter', this.measuring ? 'meter off' : 'meter', this.measuring)}
        ${this.tool('Command line', 'line', 'command line')}
        ${this.tool('Zoom out', 'out', 'zoom out')}
        <input class="zoom-percent" aria-label="Zoom" title="Zoom" size="5" autocomplete="off" .value=${`${Math.round(this.zoom * 100)} %`}
          @change=${(e: Event) => this.type(`zoom to ${Number.parseInt((e.target as HTMLInputElement).value, 10) || 100}%`)} />
        ${this.tool('Zoom in', 'in', 'zoom in')}
        ${this.tool('Fit', 'whole', 'fit')}
        ${this.tool('Presentation mode', 'size', `presentation mode ${this.large ? 'off' : 'on'}`, this.large)}
        ${this.tool(this.dark ? 'Light theme' : 'Dark theme', this.dark ? 'sun' : 'moon', this.dark ? 'light theme' : 'dark theme')}
        ${this.tool(
          'Picture of the bench',
          'picture',
          () => {
            this.picturing = !this.picturing;
          },
          this.picturing,
        )}
      </div>
      ${this.picturing ? this.pictures() : nothing}`;
  }

  private pictures() {
    const act = (name: string, line: string) => html`<button type="button" class="act" @click=${() => this.type(line)}>${name}</button>`;
    return html`<div
      class="panel pictures"
      role="group"
      aria-label="Pictures"
      @keydown=${(e: KeyboardEvent) => {
        if (e.key === 'Escape') this.picturing = false;
      }}
    >
      ${act('Save as SVG', 'save svg')}${act('Save as PNG', 'save png')}${act('Print the bench', 'print')}
    </div>`;
  }
}
