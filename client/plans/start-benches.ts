/** Benches of this page: kept in this browser's storage, demonstrations from its server. */
import type { Session } from '../state/session.ts';
import { systemClock } from '../worker/clock.ts';
import { Autosave } from './autosave.ts';
import { benchLock } from './bench-lock.ts';
import { BenchStore } from './bench-store.ts';
import { Benches } from './benches.ts';
import { browserPage as page } from './page-life.ts';
import { demoText, demoTitles } from './plan-files.ts';
import { UnloadBackup } from './unload-backup.ts';

export function startBenches(session: Session): Benches {
  const store = new BenchStore();
  const { locks } = navigator as { locks?: LockManager };
  const autosave = new Autosave({
    session,
    store,
    lock: benchLock(locks, systemClock),
    backup: new UnloadBackup(() => localStorage),
    page,
    clock: systemClock,
    today: () => Date.now(),
  });
  return new Benches({ session, autosave, store, page, demos: { titles: demoTitles, text: demoText } });
}
