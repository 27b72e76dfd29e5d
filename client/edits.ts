/** Edits on their way to the worker, one at a time, and the history of those that were made. */
import { after, type Change, changeOf, type History, NO_HISTORY, type Step } from './core.ts';

export interface Edits {
  readonly history: History;
  /** steps that are asked for while another one is under way wait their turn */
  ask(step: Step): void;
  /** the one under way has been made, in this form */
  made(change: Change): void;
  refused(): void;
  /** another bench has been asked for: what waits was meant for this one */
  drop(): void;
  /** another bench stands, with this behind it */
  begin(history: History): void;
}

export function makeEdits(send: (change: Change) => void): Edits {
  let history = NO_HISTORY;
  let waiting: readonly Step[] = [];
  let underWay: Step | undefined;
  const next = () => {
    while (underWay === undefined && waiting.length > 0) {
      const [step, ...others] = waiting;
      waiting = others;
      const change = step && changeOf(history, step);
      if (!change) continue;
      underWay = step;
      send(change);
    }
  };
  return {
    get history() {
      return history;
    },
    ask(step) {
      waiting = [...waiting, step];
      next();
    },
    made(change) {
      if (underWay) history = after(history, underWay, change);
      underWay = undefined;
      next();
    },
    refused() {
      underWay = undefined;
      next();
    },
    drop() {
      waiting = [];
    },
    begin(before) {
      [history, waiting, underWay] = [before, [], undefined];
    },
  };
}
