/** How a relay's armature answers the current of its winding: operate and release time, one side that opens before the other closes and bounces. */
import type { Bounce, Chip, ChipBench } from '../part.ts';

export interface Armature {
  /** from the current's crossing until its contacts have moved, and of that the time between the two sides [s] */
  readonly operate: number;
  readonly release: number;
  readonly transfer: number;
  /** of a side that closes */
  readonly bounce: Bounce;
  /** in pairs or alone: those closed at rest open when it operates */
  readonly contacts: readonly { readonly atRest: boolean }[];
}

/** Marks of its winding, as ChipSpec.coilMarks has them: at which it operates and releases, each at plus and at minus so much. */
const [OPERATE_PLUS, OPERATE_MINUS, RELEASE_PLUS, RELEASE_MINUS] = [0, 1, 2, 3] as const;

/** It answers either direction of the current alike. Between the two marks its armature stays where it is. */
export function startRelay(bench: ChipBench, { operate, release, transfer, bounce, contacts }: Armature): Chip {
  let operated = false;
  /** what its armature is on its way to; alarms of an earlier way are void */
  let aim = false;
  let way = 0;
  /** one side has opened and the other not closed yet */
  let between = false;
  const pulled = () => bench.above(OPERATE_PLUS) || !bench.above(OPERATE_MINUS);
  const held = () => bench.above(RELEASE_PLUS) || !bench.above(RELEASE_MINUS);
  const closes = (contact: number, to: boolean) => contacts[contact]?.atRest !== to;
  const move = (to: boolean) => {
    operated = to;
    between = false;
    for (const contact of contacts.keys()) bench.moveContact(contact, closes(contact, to));
  };
  const look = (now: number) => {
    const wanted = aim ? held() : pulled();
    if (wanted === aim) return;
    aim = wanted;
    way += 1;
    if (operated === aim && !between) {
      // it has turned back before anything moved, perhaps while a side was bouncing
      move(aim);
      return;
    }
    const arrives = now + (aim ? operate : release);
    bench.alarm(arrives - transfer, `${way} opens`);
    bench.alarm(arrives, `${way} closes`);
  };
  return {
    begin() {
      aim = pulled();
      move(aim);
    },
    levelChanged() {},
    supplyCrossed() {},
    markCrossed: (_mark, _rising, now) => look(now),
    alarm(name, now) {
      const [of, act, contact, to] = name.split(' ');
      if (Number(of) !== way) return;
      if (act === 'opens') {
        between = true;
        for (const k of contacts.keys()) if (!closes(k, aim)) bench.moveContact(k, false);
      } else if (act === 'closes') {
        move(aim);
        for (const k of contacts.keys())
          if (closes(k, aim))
            for (const [i, t] of bench.rebounds(bounce).entries())
              bench.alarm(now + t, `${way} bounces ${k} ${i % 2 === 0 ? 'open' : 'shut'}`);
      } else bench.moveContact(Number(contact), to === 'shut');
    },
    state: () => ({ doing: operated ? 'operated' : 'released' }),
    contents: () => undefined,
  };
}
