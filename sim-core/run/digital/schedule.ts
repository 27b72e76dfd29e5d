/** What is due on a running bench, in order of time: moves of contacts and alarms of chips; and whether any of it is more than a clock's next tick. */

import type { ChipSlot } from './chip-slot.ts';
import { EventQueue } from './event-queue.ts';
import type { ContactMove } from './switch-state.ts';

/** An alarm that a chip has asked for. background: nothing waits for it to rest. */
export interface Alarm {
  slot: ChipSlot;
  alarm: string;
  background: boolean;
}

export class Schedule {
  private readonly queue = new EventQueue<ContactMove | Alarm>();
  private foregroundCount = 0;
  /** alarms that have gone off, for those to come */
  private readonly spent: Alarm[] = [];
  private taken: Alarm | undefined;

  /** time of the next one [s]; Infinity when there is none */
  next(): number {
    return this.queue.next();
  }

  /** something is due that the bench is to be waited for */
  foreground(): boolean {
    return this.foregroundCount > 0;
  }

  move(time: number, move: ContactMove): void {
    this.foregroundCount += 1;
    this.queue.add(time, move);
  }

  alarm(time: number, slot: ChipSlot, name: string, background: boolean): void {
    if (!background) this.foregroundCount += 1;
    const due = this.spent.pop() ?? { slot, alarm: name, background };
    due.slot = slot;
    due.alarm = name;
    due.background = background;
    this.queue.add(time, due);
  }

  /** takes the next one off, which stays as it is until the one after it is taken */
  take(): ContactMove | Readonly<Alarm> | undefined {
    if (this.taken) this.spent.push(this.taken);
    this.taken = undefined;
    const due = this.queue.take();
    if (due && 'alarm' in due) this.taken = due;
    if (due && !(this.taken?.background ?? false)) this.foregroundCount -= 1;
    return due;
  }
}
