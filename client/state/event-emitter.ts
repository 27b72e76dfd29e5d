/** News and who listens to it: each kind of news has its own listeners, which are told in the order in which they came. */

export interface EventEmitter<News extends object> {
  /** The answer ends the listening. */
  on<K extends keyof News>(what: K, ear: (value: News[K]) => void): () => void;
  say<K extends keyof News>(what: K, value: News[K]): void;
}

/** News: what is told, by its kind. */
export function makeEventEmitter<News extends object>(): EventEmitter<News> {
  const ears: { [K in keyof News]?: Set<(value: News[K]) => void> } = {};
  return {
    on(what, ear) {
      const all = ears[what] ?? new Set();
      ears[what] = all.add(ear);
      return () => void all.delete(ear);
    },
    say(what, value) {
      for (const ear of ears[what] ?? []) ear(value);
    },
  };
}
