/** Things by long keys of numbers, each made once. */

interface Kept<T> {
  readonly key: readonly number[];
  readonly sort: number;
  readonly value: T;
}

export class KeyedOnce<T> {
  private readonly kept = new Map<number, Kept<T>[]>();

  /** sort: one more number of the key. */
  of(key: readonly number[], sort: number, make: () => T): T {
    let hash = sort;
    for (let i = 0; i < key.length; i++) hash = (Math.imul(hash, 31) + (key[i] as number)) | 0;
    const here = this.kept.get(hash) ?? [];
    for (let k = 0; k < here.length; k++) if (isSame(here[k] as Kept<T>, key, sort)) return (here[k] as Kept<T>).value;
    const value = make();
    this.kept.set(hash, [...here, { key, sort, value }]);
    return value;
  }
}

function isSame(kept: Kept<unknown>, key: readonly number[], sort: number): boolean {
  if (kept.sort !== sort || kept.key.length !== key.length) return false;
  for (let i = 0; i < key.length; i++) if (kept.key[i] !== key[i]) return false;
  return true;
}
