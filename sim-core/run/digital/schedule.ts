/** What is due on a running bench, in order of time: moves of contacts and alarms of chips; and whether any of it is more than a clock's next tick. */

import type { Seat } from './chip-runtime.ts';
import { makeEventQueue } from './event-queue.ts';
import type { ContactMove } from './switch-state.ts';

/** An alarm that a chip has asked for. background: nothing waits for it to rest. */
export interface Alarm {
  seat: Seat;
  alarm: string;
  background: boolean;
}

export interface Schedule {
  /** time of the next one [s]; Infinity when there is none */
  next(): number;
  /** something is due that the bench is to be waited for */
  foreground(): boolean;
  move(time: number, move: ContactMove): void;
  alarm(time: number, seat: Seat, name: string, background: boolean): void;
  /** takes the next one off, which stays as it is until the one after it is taken */
  take(): ContactMove | Readonly<Alarm> | undefined;
}

export function makeSchedule(): Schedule {
  const agenda = makeEventQueue<ContactMove | Alarm>();
  let foreground = 0;
  /** alarms that have gone off, for those to come */
  const spent: Alarm[] = [];
  let taken: Alarm | undefined;
  return {
    next() {
      return agenda.next();
    },
    foreground() {
      return foreground > 0;
    },
    move(time, move) {
      foreground += 1;
      agenda.add(time, move);
    },
    alarm(time, seat, name, background) {
      if (!background) foreground += 1;
      const due = spent.pop() ?? { seat, alarm: name, background };
      due.seat = seat;
      due.alarm = name;
      due.background = background;
      agenda.add(time, due);
    },
    take() {
      if (taken) spent.push(taken);
      taken = undefined;
      const due = agenda.take();
      if (due && 'alarm' in due) taken = due;
      if (due && !(taken?.background ?? false)) foreground -= 1;
      return due;
    },
  };
}
