/** What a page could not write to the end before it went, left behind at once and taken up by the next page that opens the bench. */
import type { Plan } from '../../shared/plan.ts';
import type { History } from '../../sim-core/index.ts';

/** A bench as it was in the page's last moment. */
interface LastMoment {
  readonly id: string;
  /** of the last write that was done for certain; the one under way may have been done as well */
  readonly turn: number;
  readonly plan: Plan;
  readonly history: History;
}

const place = (id: string) => `lampwright-last-moment-${id}`;

export class UnloadBackup {
  /** storage: asked each time, since even asking may be refused */
  constructor(private readonly storage: () => Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>) {}

  leave(moment: LastMoment): void {
    try {
      this.storage().setItem(place(moment.id), JSON.stringify(moment));
    } catch {
      // no room: what was written is what there is
    }
  }

  /** turn: of the bench as it is kept. What was left behind is of no use once somebody has gone on from there. */
  takeUp(id: string, turn: number): LastMoment | undefined {
    try {
      const storage = this.storage();
      const text = storage.getItem(place(id));
      storage.removeItem(place(id));
      const moment = text === null ? undefined : (JSON.parse(text) as LastMoment);
      return moment && turn - moment.turn <= 1 ? moment : undefined;
    } catch {
      return undefined;
    }
  }
}
