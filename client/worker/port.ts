/** One end of the line between a page and its worker. What comes before somebody listens is kept, and heard first. */

export interface Port<In, Out> {
  post(message: Out): void;
  /** Hears every message from the first one on. A port has one listener. */
  listen(hear: (message: In) => void): void;
}

/** What messages go through: a worker as its page sees it, or a worker's own global scope. */
interface Channel {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (e: MessageEvent) => void): void;
}

export function portOf<In, Out>(channel: Channel): Port<In, Out> {
  const early: In[] = [];
  let hear: (message: In) => void = (message) => void early.push(message);
  channel.addEventListener('message', (e: MessageEvent<In>) => hear(e.data));
  return {
    post: (message) => channel.postMessage(message),
    listen(listener) {
      hear = listener;
      for (const message of early.splice(0)) listener(message);
    },
  };
}
