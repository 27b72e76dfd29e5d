/** The bench's title, and behind it the demonstration plans, opening a file and saving. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Failure } from '../core.ts';
import { Listen } from '../listen.ts';
import type { Session } from '../session.ts';
import { type DemoTitle, demoText, demoTitles, fileText, keepText, keptText, savePlan } from './plan-files.ts';

@customElement('plan-chooser')
export class PlanChooser extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  @state() private open = false;
  @state() demos: readonly DemoTitle[] = [];

  constructor() {
    super();
    new Listen(this, () => this.session, ['standing']);
  }

  protected override createRenderRoot() {
    return this;
  }

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('pointerdown', this.outside);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('pointerdown', this.outside);
  }

  private readonly outside = (e: Event) => {
    if (this.open && !e.composedPath().includes(this)) this.open = false;
  };

  protected override firstUpdated() {
    void this.begin();
  }

  /** Opens the demonstration that the address names (?plan=…), else the first; without a server and with neither kept, the last one that was opened. */
  private async begin() {
    const list = await demoTitles();
    const named = new URLSearchParams(location.search).get('plan');
    if ('says' in list) {
      this.openLast(list, named !== null);
      return;
    }
    this.demos = list;
    const first = list.find((d) => d.id === named) ?? list[0];
    const failure = first && (await this.openDemo(first.id));
    if (failure) this.openLast(failure, named !== null);
  }

  /** otherAsked: the address names another plan, so what stands instead is not passed over in silence. */
  private openLast(failure: Failure, otherAsked: boolean) {
    const { session } = this;
    const last = keptText();
    if (!session || !last) {
      session?.refuse(failure);
      return;
    }
    if (otherAsked) {
      const off = session.on('standing', () => {
        off();
        session.refuse(failure);
      });
    }
    session.open(last);
  }

  /** The failure, if it could not be had. */
  private async openDemo(id: string): Promise<Failure | undefined> {
    const got = await demoText(id);
    if (!got.ok) return got.failure;
    this.session?.open(got.text);
    keepText(got.text);
    return undefined;
  }

  async choose(id: string) {
    this.close();
    const url = new URL(location.href);
    url.searchParams.set('plan', id);
    url.hash = '';
    history.pushState(null, '', url);
    dispatchEvent(new Event('hashchange'));
    const failure = await this.openDemo(id);
    if (failure) this.session?.refuse(failure);
  }

  private async chooseFile(e: Event) {
    const input = e.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    this.close();
    if (file) await this.openFile(file);
  }

  async openFile(file: File) {
    const got = await fileText(file);
    if (got.ok) this.session?.open(got.text);
    else this.session?.refuse(got.failure);
  }

  save() {
    this.close();
    const plan = this.session?.plan;
    if (plan) savePlan(plan);
  }

  private close() {
    this.open = false;
    this.querySelector<HTMLElement>('.plan-title')?.focus();
  }

  private keys(e: KeyboardEvent) {
    if (e.key !== 'Escape' || !this.open) return;
    e.stopPropagation();
    this.close();
  }

  protected override render() {
    const title = this.session?.standing?.plan.title ?? 'Lampwright';
    return html`<div @keydown=${this.keys}>
      <h1>
        <button type="button" class="plan-title" aria-expanded=${this.open} aria-controls="plan-list" @click=${() => {
          this.open = !this.open;
        }}>
          ${title}<svg viewBox="0 0 16 16" aria-hidden="true"><path d="M4 6l4 4 4-4" /></svg>
        </button>
      </h1>
      <div id="plan-list" class="plan-list" ?hidden=${!this.open}>
        ${
          this.demos.length > 0
            ? html`<h2>Demonstration plans</h2>
              <ul>
                ${this.demos.map((d) => html`<li><button type="button" @click=${() => this.choose(d.id)}>${d.title}</button></li>`)}
              </ul>`
            : nothing
        }
        <h2>Your own</h2>
        <ul>
          <li><label class="file">Open a plan from a file…<input type="file" class="visually-hidden" accept=".json,application/json" @change=${this.chooseFile} /></label></li>
          <li><button type="button" @click=${this.save}>Save this bench as .plan.json</button></li>
        </ul>
      </div>
    </div>`;
  }
}
