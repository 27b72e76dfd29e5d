/** A memory that holds the whole table, but not where the bench reads it: an address pin that no input of the table uses is at the wrong level. */
import type { PlanWanted } from '../../shared/plan.ts';
import { storedDifferences } from './stored-differences.ts';
import type { MemoryPins } from './table-pins.ts';

/** The tied address pins, by their number, at the level that keeps the table out of reach; undefined: the table does not stand anywhere near by. */
export function pinsOffTable(wanted: PlanWanted, pins: MemoryPins, bytes: ReadonlyMap<number, string>): readonly number[] | undefined {
  if (bytes.size === 0) return undefined;
  const tied = [...pins.address.keys()].filter((pin) => typeof pins.address[pin] === 'string');
  const high = tied.filter((pin) => pins.address[pin] === 'high');
  // one pin is wrong, or all that are high are
  return [...tied.map((pin) => [pin]), high].find((some) => some.length > 0 && isThere(wanted, pins, bytes, some));
}

/** Does the whole table stand where these pins are at their other level? */
function isThere(wanted: PlanWanted, pins: MemoryPins, bytes: ReadonlyMap<number, string>, others: readonly number[]): boolean {
  const address = pins.address.map((on, pin) => (others.includes(pin) ? (on === 'high' ? 'low' : 'high') : on));
  return storedDifferences(wanted, { ...pins, address }, bytes).length === 0;
}
