/** Where benches come from and where they go: demonstrations, files, links, those that are kept here, and an empty one. */

import { done, emptyBench, type Failure, failed, type Outcome } from '../../sim-core/index.ts';
import type { Session } from '../state/session.ts';
import type { Autosave, Keeping, OpenedAs } from './autosave.ts';
import type { BenchNote, BenchStore } from './bench-store.ts';
import type { PageLife } from './page-life.ts';
import { type DemoTitle, fileText, type PlanFile, savePlan } from './plan-files.ts';
import { isLink, isReadOnlyLink, type LinkFor, linkOf, textOfLink } from './plan-link.ts';

/** Where demonstrations come from. */
export interface DemoSource {
  titles(): Promise<Outcome<readonly DemoTitle[]>>;
  text(id: string): Promise<Outcome<string>>;
}

export interface BenchesSetting {
  readonly session: Session;
  readonly autosave: Autosave;
  readonly store: BenchStore;
  readonly page: PageLife;
  readonly demos: DemoSource;
}

export class Benches {
  /** demonstrations that can be had; none before they have come */
  demos: readonly DemoTitle[] = [];
  private readonly session: Session;
  private readonly autosave: Autosave;
  private readonly store: BenchStore;
  private readonly page: PageLife;
  private readonly source: DemoSource;
  /** where the bench that stands was saved last */
  private file: PlanFile | undefined;
  /** the opening that was asked for last; the next waits for it, so that what is asked for last stands in the end */
  private last: Promise<unknown> = Promise.resolve();

  constructor({ session, autosave, store, page, demos }: BenchesSetting) {
    [this.session, this.autosave, this.store, this.page, this.source] = [session, autosave, store, page, demos];
  }

  /** The bench that stands is kept under this name. */
  get id(): string | undefined {
    return this.autosave.id;
  }

  /** The bench that stands has been made or changed here. */
  get isOwn(): boolean {
    return this.autosave.isOwn;
  }

  /** Is the bench written as it is shown? told: when that has changed. */
  get keeping(): Keeping {
    return this.autosave.keeping;
  }
  whenKeeping(told: (keeping: Keeping) => void): void {
    this.autosave.on('keeping', told);
  }

  /**
   * What the address asks for: a whole plan (#plan=), a kept bench (?bench=), a demonstration (?plan=). Asked for nothing: the reader's own
   * last bench, else the first demonstration. What cannot be had is said, and the next best stands.
   */
  begin(): Promise<void> {
    return this.inTurn(() => this.standFirst());
  }

  private inTurn<T>(open: () => Promise<T>): Promise<T> {
    const opened = this.last.then(open);
    this.last = opened.catch(() => {});
    return opened;
  }

  private async standFirst(): Promise<void> {
    let missing: Failure | undefined;
    const off = this.session.on('refused', (failure) => {
      missing ??= failure;
    });
    if (!(await this.openAsked())) {
      // another bench stands now than was asked for, or none: that is not passed over in silence
      const before = missing;
      const stands = await this.openNextBest(before !== undefined);
      off();
      if (before) this.session.refuse(before);
      else if (!stands)
        this.session.refuse({ code: 'page/no-bench', at: 'bench', says: 'There is no bench to start with. Open a plan from a file.' });
    } else off();
  }

  /** False: nothing was asked for, or it cannot be had and that was said. */
  private async openAsked(): Promise<boolean> {
    const { searchParams: query, hash } = new URL(this.page.address);
    const [kept, demo] = [query.get('bench'), query.get('plan')];
    const list = await this.source.titles();
    if (list.ok) this.demos = list.value;
    if (isLink(hash)) return this.standLink(hash);
    if (kept !== null) {
      const stands = await this.autosave.openKept(kept);
      if (!stands)
        this.session.refuse({
          code: 'page/bench-gone',
          at: 'bench',
          says: 'The bench in this address is not kept in this browser. Choose another one under the title.',
        });
      return stands;
    }
    if (demo === null) return false;
    const failure = await this.standDemo(demo);
    if (failure) this.session.refuse(failure);
    return !failure;
  }

  /** The reader's own last bench, else the first demonstration; or, to come back to, whatever stood last. */
  private async openNextBest(anyKept: boolean): Promise<boolean> {
    const all = await this.store.list().catch(() => []);
    const last = all.find((b) => b.own || anyKept || this.demos.length === 0);
    if (last && (await this.autosave.openKept(last.id))) return true;
    const [first] = this.demos;
    return first !== undefined && (await this.standDemo(first.id)) === undefined;
  }

  /** The failure, if it could not be had. */
  openDemo(id: string): Promise<Failure | undefined> {
    return this.inTurn(() => this.standDemo(id));
  }

  private async standDemo(id: string): Promise<Failure | undefined> {
    const got = await this.source.text(id);
    if (!got.ok) return got.failure;
    await this.openNew(got.value, 'visited');
    return undefined;
  }

  openFile(file: File, handle?: PlanFile): Promise<void> {
    return this.inTurn(async () => {
      const got = await fileText(file);
      if (!got.ok) this.session.refuse(got.failure);
      else if (await this.openNew(got.value, 'own', file.name)) this.file = handle;
    });
  }

  /** False: it holds no bench that can stand, and that was said. */
  openLink(hash: string): Promise<boolean> {
    return this.inTurn(() => this.standLink(hash));
  }

  private async standLink(hash: string): Promise<boolean> {
    const text = await textOfLink(hash);
    if (!text.ok) this.session.refuse(text.failure);
    return text.ok && this.openNew(text.value, isReadOnlyLink(hash) ? 'read-only' : 'own');
  }

  /** A bench that was made here, as its maker's own. */
  openMade(text: string): Promise<boolean> {
    return this.inTurn(() => this.openNew(text, 'own'));
  }

  openEmpty(): Promise<boolean> {
    return this.inTurn(() => this.openNew(JSON.stringify(emptyBench), 'own'));
  }

  openKept(id: string): Promise<void> {
    return this.inTurn(async () => {
      if (await this.autosave.openKept(id)) this.file = undefined;
      else this.session.refuse({ code: 'page/bench-gone', at: 'bench', says: 'That bench is no longer kept here. Choose another one.' });
    });
  }

  private async openNew(text: string, as: OpenedAs, name?: string): Promise<boolean> {
    const stands = await this.autosave.openNew(text, as, name);
    if (stands) this.file = undefined;
    return stands;
  }

  /** The reader's own benches, newest first, without the one that stands. */
  async recent(): Promise<readonly BenchNote[]> {
    const all = await this.store.list().catch(() => []);
    return all.filter((b) => b.own && b.id !== this.autosave.id);
  }

  remove(id: string): Promise<void> {
    return this.store.remove(id);
  }

  /** The bench that stands once more, as the reader's own. False: there is none. */
  async copy(): Promise<boolean> {
    const { plan } = this.session;
    if (!plan) return false;
    return this.openMade(JSON.stringify({ ...plan, title: `${plan.title.slice(0, 110)} (copy)` }));
  }

  /** What was done, in one sentence; undefined: the person thought better of it. */
  async save(): Promise<string | undefined> {
    const { plan } = this.session;
    const went = plan && (await savePlan(plan, this.file));
    if (went === undefined) return undefined;
    if (went === 'downloaded') return 'Plan saved in your downloads.';
    this.file = went;
    return `Plan saved as ${went.name}.`;
  }

  /** The page's address without what it asks for. */
  private bare(): string {
    const { origin, pathname } = new URL(this.page.address);
    return `${origin}${pathname}`;
  }

  /** An address that carries the whole bench. */
  async link(opened: LinkFor = 'edit'): Promise<Outcome<string>> {
    const { plan } = this.session;
    if (!plan) return failed('page/no-bench', 'bench', 'There is no bench yet.');
    const link = await linkOf(plan, opened);
    return link.ok ? done(new URL(link.value, this.bare()).href) : link;
  }
}
