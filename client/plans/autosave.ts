/** Keeps the bench that stands, after every change and every switch, one write at a time, so that no crash and no second tab loses anything. */
import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { PLAN_VERSION } from '../../shared/upgrade-plan.ts';
import { type Change, type Failure, type History, isKnownChange, NO_HISTORY } from '../../sim-core/index.ts';
import { makeEventEmitter } from '../state/event-emitter.ts';
import type { Session } from '../state/session.ts';
import type { Clock } from '../worker/clock.ts';
import type { BenchLock } from './bench-lock.ts';
import type { BenchStore } from './bench-store.ts';
import type { PageLife } from './page-life.ts';
import { isLink } from './plan-link.ts';
import type { UnloadBackup } from './unload-backup.ts';

/** The bench that stands, as far as keeping goes. */
interface KeptBench {
  /** under which it is kept */
  id: string;
  /** of the last write */
  turn: number;
  /** the history as it was written last */
  written: readonly Change[];
  /** somebody has made it or changed it */
  own: boolean;
  /** it may be operated, not edited */
  readOnly: boolean;
  /** lets go of its lock */
  letGo: () => void;
  /** the plan as it was opened: as long as it only differs in switches, it is not its reader's own */
  opened: Plan | undefined;
}

const CONFLICT =
  'This bench was also changed in another tab, so there are now two versions. Yours continues here as a new bench; the other one is under Recent benches.';
const copySays = (title: string) => `"${title}" is open in another tab. This is a copy with its own history; both are kept.`;

/** kept: everything that is shown is written. keeping: it is being written. Else why nothing can be written, until something can be. */
export type Keeping = 'kept' | 'keeping' | { readonly failing: Failure };

/** While nothing can be written it is tried again so often [ms]; our choice. */
const TRY_AGAIN = 5000;

function notStored(e: unknown): Failure {
  const why = e instanceof DOMException && e.name === 'QuotaExceededError' ? 'its storage is full' : 'it does not let pages store anything';
  return {
    code: 'page/not-stored',
    at: 'storage',
    says: `This browser cannot keep the bench (${why}). Save it as a file before you close the page.`,
  };
}

/** own: it cannot be had again from where it came. visited: it can, until somebody changes it. read-only: it may be operated, not edited. */
export type OpenedAs = 'own' | 'visited' | 'read-only';

export interface AutosaveSetting {
  readonly session: Session;
  readonly store: BenchStore;
  readonly lock: BenchLock;
  readonly backup: UnloadBackup;
  readonly page: PageLife;
  readonly clock: Clock;
  /** [ms since 1970] */
  today(): number;
}

/** A bench kept by an earlier version is upgraded as it opens; where its changes speak of what is gone since, undo begins again there. */
function withKnownHistory<T extends { readonly plan: { readonly version: number }; readonly history: History }>(kept: T): T {
  const known = kept.plan.version === PLAN_VERSION && kept.history.changes.every(isKnownChange);
  return known ? kept : { ...kept, history: NO_HISTORY };
}

export class Autosave {
  private readonly session: Session;
  private readonly store: BenchStore;
  private readonly lock: BenchLock;
  private readonly backup: UnloadBackup;
  private readonly page: PageLife;
  private readonly clock: Clock;
  private readonly today: () => number;
  private kept: KeptBench | undefined;
  /** something has changed since the last write began */
  private dirty = false;
  /** writes that are under way; undefined: none are */
  private writing: Promise<void> | undefined;
  /** why the last write failed, if it did */
  private failing: Failure | undefined;
  /** calls the next try off */
  private callOff = () => {};
  private readonly events = makeEventEmitter<{ keeping: Keeping }>();
  /** What is told from now on; the answer ends the listening. */
  readonly on = this.events.on;
  private told: Keeping = 'kept';

  constructor({ session, store, lock, backup, page, clock, today }: AutosaveSetting) {
    [this.session, this.store, this.lock, this.backup] = [session, store, lock, backup];
    [this.page, this.clock, this.today] = [page, clock, today];
    session.on('changed', () => this.touch());
    page.whenItGoes(() => {
      const { plan, history } = session;
      if (this.kept && (this.writing || this.failing) && plan) backup.leave({ id: this.kept.id, turn: this.kept.turn, plan, history });
    });
    page.askBeforeItGoes(() => this.failing !== undefined && this.kept?.own === true);
  }

  /** The bench that stands is kept under this name; undefined: none stands yet. */
  get id(): string | undefined {
    return this.kept?.id;
  }

  get isOwn(): boolean {
    return this.kept?.own ?? false;
  }

  /** A plan that no bench is kept of yet; name: of the file that it is from. False: it was refused. */
  async openNew(text: string, as: OpenedAs, name?: string): Promise<boolean> {
    await this.finish();
    if (!(await this.session.open(text, undefined, name))) return false;
    this.sit({
      id: newId(),
      turn: 0,
      written: [],
      own: as === 'own',
      readOnly: as === 'read-only',
      letGo: () => {},
      opened: this.session.plan,
    });
    return true;
  }

  /** A bench that is kept; false: it is not, or cannot stand. */
  async openKept(id: string): Promise<boolean> {
    await this.finish();
    const letGo = id === this.kept?.id ? this.kept.letGo : await this.lock(id);
    const found = await this.store.take(id).catch(() => undefined);
    if (!found) return false;
    const { turn, note } = found;
    const late = this.backup.takeUp(id, turn);
    const { plan, history } = withKnownHistory(late ?? found);
    if (!letGo) return this.openCopy(plan, history, note.readOnly ?? false);
    if (!(await this.session.open(JSON.stringify(plan), history))) return false;
    this.sit({
      id,
      turn,
      written: found.history.changes,
      own: note.own,
      readOnly: note.readOnly ?? false,
      letGo,
      opened: note.own ? undefined : found.plan,
    });
    if (late) this.touch();
    return true;
  }

  private async openCopy(plan: Plan, history: History, readOnly: boolean): Promise<boolean> {
    const title = `${plan.title.slice(0, 110)} (copy)`;
    if (!(await this.session.open(JSON.stringify({ ...plan, title }), history))) return false;
    this.sit({ id: newId(), turn: 0, written: [], own: true, readOnly, letGo: () => {}, opened: undefined });
    this.session.refuse({ code: 'page/changed-elsewhere', at: 'bench', says: copySays(plan.title) });
    return true;
  }

  /** Is what is shown written? */
  get keeping(): Keeping {
    return this.told;
  }

  /** Until everything that was done is written. */
  async finish(): Promise<void> {
    while (this.writing) await this.writing;
  }

  private sit(kept: KeptBench) {
    if (this.kept && this.kept.id !== kept.id) this.kept.letGo();
    this.kept = kept;
    this.session.setReadOnly(kept.readOnly);
    this.showAddress();
    void this.dropOthers(kept.id);
    if (kept.turn === 0) {
      this.take(kept);
      this.touch();
    }
  }

  private take(kept: KeptBench) {
    void this.lock(kept.id).then((letGo) => {
      if (letGo) kept.letGo = letGo;
    });
  }

  /** Benches that were only looked at. */
  private async dropOthers(id: string) {
    const all = await this.store.list().catch(() => []);
    for (const b of all) if (!b.own && b.id !== id) await this.store.remove(b.id).catch(() => {});
  }

  private touch() {
    this.dirty = true;
    this.callOff();
    this.writing ??= this.write().finally(() => {
      this.writing = undefined;
      this.tell();
      if (this.failing) this.callOff = this.clock.after(TRY_AGAIN, () => this.touch());
    });
    this.tell();
  }

  /** What is shown and not written is being written, unless nothing can be. */
  private tell() {
    const { failing, told } = this;
    const now = failing ? { failing } : this.kept && this.writing ? 'keeping' : 'kept';
    if (now === told || (typeof now === 'object' && typeof told === 'object' && now.failing.says === told.failing.says)) return;
    this.told = now;
    this.events.say('keeping', now);
  }

  private async write() {
    while (this.dirty && this.kept) {
      this.dirty = false;
      const { kept, session } = this;
      const { plan, history } = session;
      if (!plan) return;
      kept.own ||= history.changes.length > 0 || (kept.opened !== undefined && !isSame(kept.opened, plan));
      this.showAddress();
      const note = {
        id: kept.id,
        title: plan.title,
        savedAt: this.today(),
        own: kept.own,
        ...(kept.readOnly ? { readOnly: true as const } : {}),
      };
      const from = sameUpTo(kept.written, history.changes);
      try {
        const turn = await this.store.keep({ note, plan, history, from, turn: kept.turn });
        if (turn === 'rival') {
          this.becomeAnother(kept);
          continue;
        }
        [kept.turn, kept.written] = [turn, history.changes];
        this.failing = undefined;
        this.showAddress();
      } catch (e) {
        this.failing = notStored(e);
      }
    }
  }

  private becomeAnother(kept: KeptBench) {
    kept.letGo();
    Object.assign(kept, { id: newId(), turn: 0, written: NO_HISTORY.changes, own: true });
    this.take(kept);
    this.dirty = true;
    this.session.refuse({ code: 'page/changed-elsewhere', at: 'bench', says: CONFLICT });
  }

  /** What is its reader's own, or has been switched, is found again by its address. */
  private showAddress() {
    const { kept } = this;
    if (!kept || kept.turn === 0) return;
    // the panel's own addresses would take the place of the link
    const touched = kept.own || kept.readOnly || (kept.opened && !sameValue(kept.opened.switches, this.session.plan?.switches));
    const url = new URL(this.page.address);
    if (!touched || url.searchParams.get('bench') === kept.id) return;
    url.search = `?bench=${kept.id}`;
    if (isLink(url.hash)) url.hash = '';
    this.page.showAddress(url.href);
  }
}

/** Apart from where the switches stand. */
const isSame = (a: Plan, b: Plan): boolean => sameValue({ ...a, switches: {} }, { ...b, switches: {} });

function sameUpTo(a: readonly Change[], b: readonly Change[]): number {
  let i = 0;
  while (i < a.length && i < b.length && a[i] === b[i]) i += 1;
  return i;
}

const newId = (): string => Array.from(crypto.getRandomValues(new Uint8Array(9)), (b) => b.toString(36).padStart(2, '0')).join('');
