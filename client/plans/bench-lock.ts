/** One tab at a time works on a kept bench. Where a browser knows no locks, the count of writes alone has to find a rival. */

/** A tab that is being reloaded lets go in a moment [ms]. */
const PATIENCE = 500;

/** Lets go of it; undefined: another tab has it. */
export async function holdBench(id: string): Promise<(() => void) | undefined> {
  const { locks } = navigator as { locks?: LockManager };
  if (!locks) return () => {};
  return new Promise((found) => {
    locks
      .request(
        `lampwright-bench-${id}`,
        { signal: AbortSignal.timeout(PATIENCE) },
        () => new Promise<void>((letGo) => found(() => letGo())),
      )
      .catch(() => found(undefined));
  });
}
