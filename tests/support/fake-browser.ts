/** What a browser lends to a page that keeps benches, without one: locks shared by its tabs, a storage, and pages that come and go. */
import 'fake-indexeddb/auto';
import { Autosave, type Keeping } from '../../client/plans/autosave.ts';
import { benchLock } from '../../client/plans/bench-lock.ts';
import { BenchStore } from '../../client/plans/bench-store.ts';
import { Benches, type DemoSource } from '../../client/plans/benches.ts';
import type { PageLife } from '../../client/plans/page-life.ts';
import { UnloadBackup } from '../../client/plans/unload-backup.ts';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import { done, failed } from '../../sim-core/index.ts';
import { type LiveBench, liveBench } from './live-bench.ts';

/** Locks by name: who asks for one that is held waits for it, until it is told to give up. */
class FakeLocks {
  private readonly held = new Map<string, Promise<void>>();
  private readonly holders = new Set<string>();

  query = () => Promise.resolve({ held: [...this.holders].map((name) => ({ name })) });

  async request(name: string, { signal }: { readonly signal?: AbortSignal }, does: () => Promise<void>): Promise<void> {
    const before = this.held.get(name) ?? Promise.resolve();
    let free = () => {};
    const mine = new Promise<void>((f) => {
      free = f;
    });
    this.held.set(
      name,
      before.then(() => mine),
    );
    const givenUp = new Promise<true>((yes) => signal?.addEventListener('abort', () => yes(true)));
    const gaveUp = await Promise.race([before.then(() => false), givenUp]);
    try {
      if (gaveUp) throw new DOMException('The wait was given up.', 'AbortError');
      this.holders.add(name);
      await does();
    } finally {
      if (!gaveUp) this.holders.delete(name);
      free();
    }
  }
}

/** A Storage of so many characters. */
export class FakeStorage {
  readonly items = new Map<string, string>();
  constructor(private readonly room = Number.POSITIVE_INFINITY) {}

  getItem(name: string): string | null {
    return this.items.get(name) ?? null;
  }
  setItem(name: string, text: string): void {
    if (text.length > this.room) throw new DOMException('No room.', 'QuotaExceededError');
    this.items.set(name, text);
  }
  removeItem(name: string): void {
    this.items.delete(name);
  }
}

export interface Tab extends LiveBench {
  readonly benches: Benches;
  readonly autosave: Autosave;
  /** whether what is shown was written, as it was told, oldest first */
  readonly keeping: readonly Keeping[];
  /** the address as it stands */
  address(): string;
  /** Lets time pass until it has come. */
  until<T>(come: Promise<T>): Promise<T>;
  /** Until everything is written. */
  settle(): Promise<void>;
  /** The page is closed or reloaded: its handlers run, its locks go. */
  close(): void;
  /** would the browser ask before the page goes? */
  asksBeforeItGoes(): boolean;
}

const demos: DemoSource = {
  titles: async () => done(DEMO_PLANS.map(({ id, plan }) => ({ id, title: plan.title, says: '' }))),
  text: async (id) => {
    const plan = demoPlan(id);
    return plan ? done(JSON.stringify(plan)) : failed('file/not-found', id, 'There is no such demonstration.');
  },
};

let browsers = 0;

export interface BrowserSetting {
  /** undefined: it knows no locks */
  readonly locks?: boolean;
  readonly storage?: FakeStorage;
  readonly demos?: DemoSource;
}

/** One browser with a store, locks and a storage that its tabs share. */
export class FakeBrowser {
  readonly name: string;
  readonly store: BenchStore;
  readonly storage: FakeStorage;
  private readonly locks: FakeLocks | undefined;
  private readonly demos: DemoSource;
  /** counts up, so that no two writes have the same date */
  private date = 0;

  constructor(setting: BrowserSetting = {}) {
    browsers += 1;
    this.name = `browser ${browsers}`;
    this.store = new BenchStore(this.name);
    this.storage = setting.storage ?? new FakeStorage();
    this.locks = setting.locks === false ? undefined : new FakeLocks();
    this.demos = setting.demos ?? demos;
  }

  /** A tab that has gone to an address; nothing stands in it yet. */
  tab(address = 'https://bench.test/'): Tab {
    const live = liveBench();
    let here = address;
    let goes = () => {};
    let asks = () => false;
    const held = new Set<() => void>();
    const page: PageLife = {
      get address() {
        return here;
      },
      showAddress: (next) => {
        here = next;
      },
      whenItGoes: (does) => {
        goes = does;
      },
      askBeforeItGoes: (does) => {
        asks = does;
      },
    };
    const take = benchLock(this.locks as unknown as LockManager | undefined, live.clock);
    const autosave = new Autosave({
      session: live.session,
      store: new BenchStore(this.name),
      lock: async (id) => {
        const letGo = await take(id);
        if (letGo) held.add(letGo);
        return letGo;
      },
      backup: new UnloadBackup(() => this.storage),
      page,
      clock: live.clock,
      today: () => {
        this.date += 1;
        return this.date;
      },
    });
    const keeping: Keeping[] = [];
    autosave.on('keeping', (now) => keeping.push(now));
    const benches = new Benches({ session: live.session, autosave, store: this.store, page, demos: this.demos });
    const until = async <T>(come: Promise<T>): Promise<T> => {
      let came = false;
      const mark = () => {
        came = true;
      };
      come.then(mark, mark);
      for (let turns = 0; !came; turns++) {
        if (turns > 5000) throw new Error('It never came.');
        live.clock.pass(10);
        await new Promise((next) => setImmediate(next));
      }
      return come;
    };
    return {
      ...live,
      benches,
      autosave,
      keeping,
      address: () => here,
      until,
      settle: async () => {
        live.clock.pass(50);
        await until(autosave.finish());
      },
      close: () => {
        goes();
        for (const letGo of held) letGo();
      },
      asksBeforeItGoes: () => asks(),
    };
  }

  /** A tab with what its address asks for standing in it, all of it kept. */
  async visit(address?: string): Promise<Tab> {
    const tab = this.tab(address);
    await tab.until(tab.benches.begin());
    await tab.settle();
    return tab;
  }
}
