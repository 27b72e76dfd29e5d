/** Faults in a browser's store, at a step that a test names: a write that fails, or a page that dies in the middle of it. */
import { IDBObjectStore } from 'fake-indexeddb';

/** fails: the step is refused, as with a full storage. dies: the step is asked for, and then the page is gone with its transaction. */
export type StorageFault = 'fails' | 'dies';

const STEPS = ['get', 'getAll', 'put', 'delete'] as const;

/** Does it with a fault at the nth step of the store from now on (1: the next), or at every one. True: so many steps were taken, and the fault has struck. */
export async function withFaultAt(nth: number | 'every', fault: StorageFault, does: () => Promise<unknown>): Promise<boolean> {
  const proto = IDBObjectStore.prototype as unknown as Record<string, (this: IDBObjectStore, ...args: unknown[]) => unknown>;
  const own = new Map(STEPS.map((name) => [name, proto[name]!] as const));
  let step = 0;
  let struck = false;
  for (const [name, real] of own)
    proto[name] = function (this: IDBObjectStore, ...args) {
      step += 1;
      if (nth === 'every' || step === nth) {
        struck = true;
        if (fault === 'fails') throw new DOMException('No room.', 'QuotaExceededError');
        const request = real.apply(this, args);
        this.transaction.abort();
        return request;
      }
      return real.apply(this, args);
    };
  try {
    await does();
  } finally {
    for (const [name, real] of own) proto[name] = real;
  }
  return struck;
}
