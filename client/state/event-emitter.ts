/** News and who listens to it: each kind of news has its own listeners, which are told in the order in which they came. */

export interface EventEmitter<News extends object> {
  /** The answer ends the listening. */
  on<K extends keyof News>(what: K, listener: (value: News[K]) => void): () => void;
  say<K extends keyof News>(what: K, value: News[K]): void;
}

/** News: what is told, by its kind. */
export function makeEventEmitter<News extends object>(): EventEmitter<News> {
  const listeners: { [K in keyof News]?: Set<(value: News[K]) => void> } = {};
  return {
    on(what, listener) {
      const all = listeners[what] ?? new Set();
      listeners[what] = all.add(listener);
      return () => void all.delete(listener);
    },
    say(what, value) {
      for (const listener of listeners[what] ?? []) listener(value);
    },
  };
}
