/** The bench's title, and behind it all that can be done with whole benches: name, save, share, and stand another one up. */
import { html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { type Failure, grouped, setField } from '../../sim-core/index.ts';
import { SessionElement } from '../state/session-element.ts';
import { icon } from '../theme/icon.ts';
import type { Keeping } from './autosave.ts';
import type { BenchNote } from './bench-store.ts';
import type { Benches } from './benches.ts';
import type { DemoTitle } from './plan-files.ts';
import type { GalleryChoice, PlanGallery } from './plan-gallery.ts';
import type { LinkFor } from './plan-link.ts';
import { isLink } from './plan-link.ts';
import type { ShareDialog } from './share-dialog.ts';
import { startBenches } from './start-benches.ts';

const keptMark = html`<span class="kept-mark" title="Kept in this browser"><span class="visually-hidden">Kept in this browser</span>${icon('M3.500 8.500l3 3 6-7', 16)}</span>`;

@customElement('plan-chooser')
export class PlanChooser extends SessionElement {
  protected override readonly hears = ['model'] as const;
  @state() private open = false;
  @state() private recent: readonly BenchNote[] = [];
  @state() private said = '';
  @state() private keeping = false;
  @state() private failing = false;
  /** the examples, and the dialog to share in, have been asked for */
  @state() private gallery = false;
  @state() private sharing = false;
  @query('.plan-title') private readonly opener!: HTMLElement;
  private benches: Benches | undefined;

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('pointerdown', this.outside);
    addEventListener('hashchange', this.linked);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('pointerdown', this.outside);
    removeEventListener('hashchange', this.linked);
  }

  private readonly outside = (e: Event) => {
    if (this.open && !e.composedPath().includes(this)) this.open = false;
  };

  /** A link pasted over this page's address. */
  private readonly linked = () => {
    if (isLink(location.hash)) void this.benches?.openLink(location.hash);
  };

  protected override firstUpdated() {
    if (!this.session) return;
    this.benches = startBenches(this.session);
    this.benches.whenKeeping((keeping) => {
      this.keeping = keeping === 'keeping';
      this.failing = typeof keeping === 'object';
      this.dispatchEvent(new CustomEvent<Keeping>('keeping', { detail: keeping }));
    });
    void this.benches.begin().then(() => this.requestUpdate());
  }

  get demos(): readonly DemoTitle[] {
    return this.benches?.demos ?? [];
  }

  /** A demonstration, as if its address had been gone to. */
  async choose(id: string) {
    this.goTo(`?plan=${encodeURIComponent(id)}`);
    const failure = await this.benches?.openDemo(id);
    if (failure) this.session?.refuse(failure);
  }

  /** The failure, if they could not be loaded. */
  async showExamples(): Promise<Failure | undefined> {
    try {
      await import('./plan-gallery.ts');
    } catch {
      return { code: 'file/unreachable', at: 'examples', says: 'The examples cannot be loaded. Try again when you are connected.' };
    }
    this.gallery = true;
    await this.updateComplete;
    await this.querySelector<PlanGallery>('plan-gallery')?.show();
    return undefined;
  }

  /** The failure, if it could not be loaded. */
  async share(): Promise<Failure | undefined> {
    try {
      await import('./share-dialog.ts');
    } catch {
      return { code: 'file/unreachable', at: 'share', says: 'The page to share in cannot be loaded. Try again when you are connected.' };
    }
    this.sharing = true;
    await this.updateComplete;
    await this.querySelector<ShareDialog>('share-dialog')?.show();
    return undefined;
  }

  /** The bench that stands once more, as the reader's own. */
  async copy(): Promise<void> {
    this.goTo('');
    await this.benches?.copy();
  }

  private take(choice: GalleryChoice) {
    if ('demo' in choice) void this.choose(choice.demo);
    else if ('empty' in choice) void this.empty();
    else void this.made(choice.made, choice.next);
  }

  async openFile(file: File, handle?: FileSystemFileHandle) {
    await this.benches?.openFile(file, handle);
  }

  /** A bench that was built here; the notebook turns to `next`. */
  async made(text: string, next: string) {
    this.goTo('');
    if (await this.benches?.openMade(text)) location.hash = next;
  }

  async empty() {
    this.goTo('');
    await this.benches?.openEmpty();
  }

  async save(): Promise<string | undefined> {
    return this.benches?.save();
  }

  /** Copies a link to the whole bench; what was done, or undefined where it could not be, which has been said. */
  async copyLink(opened: LinkFor = 'edit'): Promise<string | undefined> {
    const link = await this.benches?.link(opened);
    if (!link) return undefined;
    if (!link.ok) {
      this.session?.refuse(link.failure);
      return undefined;
    }
    try {
      await navigator.clipboard.writeText(link.value);
      const what = opened === 'operate' ? 'Read-only link' : 'Link';
      return `${what} copied: it holds the whole bench in ${grouped(link.value.length)} characters.`;
    } catch {
      // no clipboard for us: the address bar has it, to be copied by hand
      history.replaceState(null, '', link.value);
      return 'The link is now in the address bar. Copy it from there.';
    }
  }

  rename(title: string) {
    const plan = this.session?.plan;
    if (plan && title !== '' && title !== plan.title) this.session?.edit(setField(plan, 'title', title));
  }

  private goTo(search: string) {
    const url = new URL(location.href);
    url.search = search;
    url.hash = '';
    history.pushState(null, '', url);
    dispatchEvent(new Event('hashchange'));
  }

  private async chooseFile(e: Event) {
    const input = e.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    this.close();
    if (file) await this.openFile(file);
  }

  private async shown(opening: Promise<Failure | undefined>) {
    const failure = await opening;
    if (failure) this.session?.refuse(failure);
  }

  private async toggle() {
    this.open = !this.open;
    this.said = '';
    this.querySelector('.plan-list')?.scrollTo(0, 0);
    if (this.open) this.recent = (await this.benches?.recent()) ?? [];
  }

  private close() {
    this.open = false;
    this.opener.focus();
  }

  private keys(e: KeyboardEvent) {
    if (e.key !== 'Escape' || !this.open) return;
    e.stopPropagation();
    this.close();
  }

  private go(act: () => unknown) {
    this.close();
    void act();
  }

  private async forget(note: BenchNote) {
    await this.benches?.remove(note.id);
    this.recent = this.recent.filter((b) => b.id !== note.id);
    this.said = `"${note.title}" removed.`;
    this.opener.focus();
  }

  private async say(what: Promise<string | undefined>) {
    this.said = (await what) ?? '';
  }

  protected override render() {
    const title = this.session?.model?.plan.title ?? 'Lampwright';
    return html`<div @keydown=${this.keys}>
      <h1>
        <button type="button" class="plan-title" aria-expanded=${this.open} aria-controls="plan-list" @click=${this.toggle}>
          ${title}${icon('M4 6l4 4 4-4', 16)}
        </button>
      </h1>
      ${this.keeping ? html`<p class="keeping">Keeping …</p>` : this.benches?.isOwn && !this.failing ? keptMark : nothing}
      <div id="plan-list" class="plan-list" ?hidden=${!this.open}>${this.open && this.session?.model ? this.thisBench(title) : nothing}${this.others()}</div>
      ${this.gallery ? html`<plan-gallery .demos=${this.demos} @example=${(e: CustomEvent<GalleryChoice>) => this.take(e.detail)}></plan-gallery>` : nothing}
      ${this.sharing ? html`<share-dialog .link=${(opened: LinkFor) => this.benches?.link(opened)}></share-dialog>` : nothing}
    </div>`;
  }

  private thisBench(title: string) {
    return html`<section aria-labelledby="this-bench">
      <h2 id="this-bench">This bench</h2>
      <form class="bench-name" @submit=${(e: SubmitEvent) => {
        e.preventDefault();
        this.rename(String(new FormData(e.target as HTMLFormElement).get('title') ?? '').trim());
      }}>
        <label>Name <input name="title" maxlength="120" autocomplete="off" .value=${title} /></label>
        <button type="submit" class="plain">Rename</button>
      </form>
      <div class="bench-acts">
        <button type="button" class="act" @click=${() => this.say(this.save())}>Save as a file</button>
        <button type="button" class="act" @click=${() => this.say(this.copyLink())}>Copy a link</button>
        <button type="button" class="act" @click=${() => this.go(() => this.shown(this.share()))}>Share …</button>
      </div>
      <p class="said" role="status">${this.said}</p>
    </section>`;
  }

  private others() {
    return html`<section aria-labelledby="other-benches">
        <h2 id="other-benches">Another bench</h2>
        <ul>
          <li><button type="button" @click=${() => this.go(() => this.shown(this.showExamples()))}>Examples, with pictures</button></li>
          <li><button type="button" @click=${() => this.go(() => this.empty())}>New bench: one board and a supply</button></li>
          <li><label class="file">Open a plan from a file…<input type="file" class="visually-hidden" accept=".json,.txt,application/json,text/plain" @change=${this.chooseFile} /></label></li>
        </ul>
      </section>
      ${
        this.recent.length > 0
          ? html`<section aria-labelledby="recent-benches">
              <h2 id="recent-benches">Recent benches</h2>
              <ul>${this.recent.map((b) => this.recentBench(b))}</ul>
            </section>`
          : nothing
      }
      ${
        this.demos.length > 0
          ? html`<section aria-labelledby="demo-benches">
              <h2 id="demo-benches">Demonstrations</h2>
              <ul>${this.demos.map(
                (
                  d,
                ) => html`<li><button type="button" aria-describedby="about-${d.id}" @click=${() => this.go(() => this.choose(d.id))}>${d.title}</button>
                  <p class="demo-says" id="about-${d.id}">${d.says}</p></li>`,
              )}</ul>
            </section>`
          : nothing
      }`;
  }

  private recentBench(b: BenchNote) {
    const when = new Date(b.savedAt).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
    return html`<li class="recent">
      <button type="button" @click=${() => this.go(() => this.benches?.openKept(b.id))}>${b.title} <span class="figures">${when}</span></button>
      <button type="button" class="plain remove" aria-label="Remove ${b.title}, ${when}" @click=${() => this.forget(b)}>Remove</button>
    </li>`;
  }
}
