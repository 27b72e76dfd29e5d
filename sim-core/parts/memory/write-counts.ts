/** How often each cell of a memory has been written. */
import type { PlanCells } from '../../../shared/plan.ts';
import type { Partly } from '../../units/hex.ts';
import type { PartKind } from '../part.ts';
import { countWrites, writesOf } from './cell-state.ts';

/** How often every cell of a specimen had been written when it came to the bench. */
export const writtenBefore: PartKind['params'] = [
  { name: 'written', type: 'number', unit: '', fallback: 0, least: 0, most: 1_000_000, whole: true, called: 'writes before' },
];

export interface WriteCounts {
  /** the cell that has been written most often */
  readonly most: { readonly address: number; readonly cycles: number };
  /** how often it will have been written after one more time; 0 while its address is not known */
  next(address: Partly): number;
  /** one more time */
  count(address: Partly): void;
  /** on this bench, in plan form */
  writes(): PlanCells['writes'];
}

/** before: how often every cell had been written before; writes: on top of that, as the plan says. */
export function makeWriteCounts(cells: number, before: number, writes: PlanCells['writes']): WriteCounts {
  const cycles = new Uint32Array(cells).fill(before);
  countWrites(cycles, writes);
  let most = { address: 0, cycles: before };
  for (let address = 0; address < cells; address++) {
    const n = cycles[address] as number;
    if (n > most.cycles) most = { address, cycles: n };
  }
  return {
    get most() {
      return most;
    },
    next: (address) => (address.unknown ? 0 : (cycles[address.value] as number) + 1),
    writes: () => writesOf(cycles, before),
    count(address) {
      if (address.unknown) return;
      const n = (cycles[address.value] as number) + 1;
      cycles[address.value] = n;
      if (n > most.cycles) most = { address: address.value, cycles: n };
    },
  };
}
