/** Whether a chip has enough supply: a gap that its own wires and pins bridge counts for nothing. */
import type { ChipBench } from '../part.ts';

/** Shorter gaps of the supply are bridged by what a chip's own wires and pins hold [s]. Our choice. */
const BRIDGED = 50e-9;
/** Rounding of times [s]. */
const ROUNDING = 1e-16;

export interface SupplyHysteresis {
  on(): boolean;
  /** the bench has voltages for the first time */
  begin(): void;
  /** the supply has crossed this level; true if the chip has it now and had it not before */
  crossed(rising: boolean, now: number): boolean;
  /** an alarm has gone off; true if it was asked for here and the chip has lost its supply */
  alarm(name: string, now: number): boolean;
}

/** volts: one of ChipSpec.supplyMarks, or the least of its range. name: of the alarm. */
export function supplyHysteresis(bench: Pick<ChipBench, 'supply' | 'alarm'>, volts: number, name = `supply ${volts}`): SupplyHysteresis {
  let on = false;
  let lostAt = Number.NEGATIVE_INFINITY;
  return {
    on() {
      return on;
    },
    begin() {
      on = bench.supply() >= volts;
    },
    crossed(rising, now) {
      if (!rising && on) {
        lostAt = now;
        bench.alarm(now + BRIDGED, name);
      }
      if (!rising || on) return false;
      on = true;
      return true;
    },
    alarm(which, now) {
      if (which !== name || !on || bench.supply() >= volts || now < lostAt + BRIDGED - ROUNDING) return false;
      on = false;
      return true;
    },
  };
}
