/** What a chip notices of the world: levels that have stood still for a moment, in the order in which they began, and a supply that is gone for good. */
import type { ChipBench, Level } from '../part.ts';
import { supplyHysteresis } from './supply-hysteresis.ts';

/** A level that does not stand so long is not noticed by any family [s]. Our choice: shortest pulses in sheets are some nanoseconds. */
const NOTICED = 1e-9;
/** Rounding of times [s]. */
const ROUNDING = 1e-16;

export interface InputFilter {
  /** the bench has voltages for the first time */
  begin(now: number): void;
  level(input: number): Level;
  /** is it supplied? */
  on(): boolean;
  /** the bench says that this input has another level now */
  changed(input: number, now: number): void;
  supplyCrossed(rising: boolean, now: number): void;
  /** an alarm that `changed` or `supplyCrossed` asked for has gone off; false if it is somebody else's */
  alarm(name: string, now: number): boolean;
}

/** heard: an input has had another level since that time; switched: it has got or lost its supply, with its inputs as they stand. */
export function notice(
  bench: ChipBench,
  inputs: number,
  alive: number,
  heard: (input: number, since: number) => void,
  switched: (now: number) => void,
): InputFilter {
  const seen: Level[] = Array.from({ length: inputs }, () => 'X');
  const changedAt = seen.map(() => Number.NEGATIVE_INFINITY);
  let alarmAt = Number.NaN;
  /** inputs with a new level, the earliest first, in the first places */
  const fresh = new Int32Array(inputs);
  const supply = supplyHysteresis(bench, alive);
  const turn = (now: number) => {
    for (const i of seen.keys()) seen[i] = bench.level(i);
    switched(now);
  };
  return {
    begin(now) {
      supply.begin();
      turn(now);
    },
    level: (input) => seen[input] ?? 'X',
    on() {
      return supply.on();
    },
    changed(input, now) {
      changedAt[input] = now;
      // one alarm is for all inputs that changed at this moment
      if (alarmAt === now + NOTICED) return;
      alarmAt = now + NOTICED;
      bench.alarm(alarmAt, 'inputs');
    },
    supplyCrossed(rising, now) {
      if (supply.crossed(rising, now)) turn(now);
    },
    alarm(name, now) {
      if (supply.alarm(name, now)) turn(now);
      if (name !== 'inputs') return false;
      alarmAt = Number.NaN;
      let count = 0;
      for (let i = 0; i < seen.length; i++) {
        if (bench.level(i) === seen[i] || (changedAt[i] as number) + NOTICED > now + ROUNDING) continue;
        let place = count++;
        for (; place > 0 && (changedAt[fresh[place - 1] as number] as number) > (changedAt[i] as number); place--)
          fresh[place] = fresh[place - 1] as number;
        fresh[place] = i;
      }
      for (let k = 0; k < count; k++) {
        const i = fresh[k] as number;
        seen[i] = bench.level(i);
        if (supply.on()) heard(i, changedAt[i] as number);
      }
      return true;
    },
  };
}
