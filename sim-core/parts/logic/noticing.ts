/** What a chip notices of the world: levels that have stood still for a moment, in the order in which they began, and a supply that is gone for good. */
import type { ChipBench, Level } from '../part.ts';

/** A level that does not stand so long is not noticed by any family on the shelf [s]. Our choice: shortest pulses in sheets are some nanoseconds. */
const NOTICED = 1e-9;
/** Shorter gaps of the supply are bridged by what its own wires and pins hold [s]. Our choice. */
const BRIDGED = 50e-9;
/** Rounding of times [s]. */
const ROUNDING = 1e-16;

export interface Noticing {
  /** the bench has voltages for the first time */
  begin(now: number): void;
  level(input: number): Level;
  /** is it supplied? */
  readonly on: boolean;
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
): Noticing {
  const seen: Level[] = Array.from({ length: inputs }, () => 'X');
  const changedAt = seen.map(() => Number.NEGATIVE_INFINITY);
  let on = false;
  let lostAt = Number.NEGATIVE_INFINITY;
  const turn = (to: boolean, now: number) => {
    on = to;
    for (const i of seen.keys()) seen[i] = bench.level(i);
    switched(now);
  };
  return {
    begin: (now) => turn(bench.supply() >= alive, now),
    level: (input) => seen[input] ?? 'X',
    get on() {
      return on;
    },
    changed(input, now) {
      changedAt[input] = now;
      bench.alarm(now + NOTICED, 'inputs');
    },
    supplyCrossed(rising, now) {
      if (rising && !on) turn(true, now);
      else if (!rising && on) {
        lostAt = now;
        bench.alarm(now + BRIDGED, 'supply');
      }
    },
    alarm(name, now) {
      if (name === 'supply') {
        if (on && bench.supply() < alive && now >= lostAt + BRIDGED - ROUNDING) turn(false, now);
        return true;
      }
      if (name !== 'inputs') return false;
      const fresh = [...seen.keys()].filter((i) => bench.level(i) !== seen[i] && (changedAt[i] as number) + NOTICED <= now + ROUNDING);
      fresh.sort((a, b) => (changedAt[a] as number) - (changedAt[b] as number) || a - b);
      for (const i of fresh) {
        seen[i] = bench.level(i);
        if (on) heard(i, changedAt[i] as number);
      }
      return true;
    },
  };
}
