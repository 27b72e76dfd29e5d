/** Benches that this browser keeps: each one's plan and what was done to it, in IndexedDB. Two writers of one bench never overwrite each other. */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Plan } from '../../shared/plan.ts';
import type { Change, History } from '../../sim-core/index.ts';

/** One bench as it is listed. */
export interface BenchNote {
  readonly id: string;
  readonly title: string;
  /** [ms since 1970] */
  readonly savedAt: number;
  /** somebody has made it or changed it; one that was only looked at is kept until the next one is opened */
  readonly own: boolean;
  /** it was shared to be operated, not edited */
  readonly readOnly?: true;
}

interface Kept extends BenchNote {
  /** As text: a table of 65 536 rows is copied into the store ten times as fast as one by one. Benches that were kept before that are values. */
  readonly plan: string | Plan;
  /** History.at */
  readonly at: number;
  /** counts the writes; a writer that finds another number than its own last one has a rival */
  readonly turn: number;
}

/** A bench taken out again. */
export interface Found {
  readonly note: BenchNote;
  readonly plan: Plan;
  readonly history: History;
  readonly turn: number;
}

export interface Entry {
  readonly note: BenchNote;
  readonly plan: Plan;
  readonly history: History;
  /** from this change on, the history is not as it was written last */
  readonly from: number;
  /** of the last write; 0: none yet */
  readonly turn: number;
}

interface Shelves extends DBSchema {
  benches: { key: string; value: Kept };
  /** by bench and place in its history */
  changes: { key: [string, number]; value: string | Change };
}

const changesOf = (id: string, from = 0) => IDBKeyRange.bound([id, from], [id, Number.POSITIVE_INFINITY]);

const taken = <T extends object>(kept: string | T): T => (typeof kept === 'string' ? (JSON.parse(kept) as T) : kept);

export class BenchStore {
  /** the connection, made by the first who needs it; undefined: none yet, or it has failed or was ended */
  private opening: Promise<IDBPDatabase<Shelves>> | undefined;

  constructor(private readonly name = 'lampwright') {}

  private base(): Promise<IDBPDatabase<Shelves>> {
    this.opening ??= openDB<Shelves>(this.name, 1, {
      upgrade(db) {
        db.createObjectStore('benches', { keyPath: 'id' });
        db.createObjectStore('changes');
      },
      terminated: () => {
        this.opening = undefined;
      },
    });
    this.opening.catch(() => {
      this.opening = undefined;
    });
    return this.opening;
  }

  /** Newest first. */
  async list(): Promise<readonly BenchNote[]> {
    const all = await (await this.base()).getAll('benches');
    return all.map(({ id, title, savedAt, own }) => ({ id, title, savedAt, own })).sort((a, b) => b.savedAt - a.savedAt);
  }

  async take(id: string): Promise<Found | undefined> {
    const work = (await this.base()).transaction(['benches', 'changes']);
    const [kept, changes] = await Promise.all([
      work.objectStore('benches').get(id),
      work.objectStore('changes').getAll(changesOf(id)),
      work.done,
    ]);
    return kept && { note: kept, plan: taken(kept.plan), history: { changes: changes.map(taken), at: kept.at }, turn: kept.turn };
  }

  /** The number of this write; 'rival': another tab has written this bench since, and nothing was touched. All of it is written, or nothing. */
  async keep({ note, plan, history, from, turn }: Entry): Promise<number | 'rival'> {
    const work = (await this.base()).transaction(['benches', 'changes'], 'readwrite', { durability: 'relaxed' });
    const [benches, changes] = [work.objectStore('benches'), work.objectStore('changes')];
    try {
      const there = await benches.get(note.id);
      if (there && there.turn !== turn) return 'rival';
      const first = there ? from : 0;
      void changes.delete(changesOf(note.id, first)).catch(failsTheWhole);
      for (let i = first; i < history.changes.length; i++)
        void changes.put(JSON.stringify(history.changes[i]), [note.id, i]).catch(failsTheWhole);
      void benches.put({ ...note, plan: JSON.stringify(plan), at: history.at, turn: turn + 1 }).catch(failsTheWhole);
      await work.done;
      return turn + 1;
    } catch (e) {
      await giveUp(work);
      throw e;
    }
  }

  async remove(id: string): Promise<void> {
    const work = (await this.base()).transaction(['benches', 'changes'], 'readwrite');
    await Promise.all([work.objectStore('benches').delete(id), work.objectStore('changes').delete(changesOf(id)), work.done]);
  }
}

/** One write that fails makes its transaction fail, which says by what. */
const failsTheWhole = () => {};

/** What could not be written to the end is not written at all. */
async function giveUp(work: { abort(): void; readonly done: Promise<void> }): Promise<void> {
  try {
    work.abort();
  } catch {
    // it has ended already
  }
  await work.done.catch(() => {});
}
