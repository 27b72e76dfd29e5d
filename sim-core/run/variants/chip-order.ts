/** In which order the chips of a bench of blocks are asked, each after those that it waits for. */
import type { BenchBlocks } from './bench-blocks.ts';

/** A chip, and the blocks that it has to know first. */
export interface ChipTurn {
  readonly chip: number;
  readonly reads: Int32Array;
}

/** Undefined where a chip waits for itself. What a memory takes from its data pins moves nothing while it is not written to. */
export function askingOrder({ blocks, chips }: BenchBlocks): ChipTurn[] | undefined {
  const drivers = blocks.map(({ outputs }) => outputs.map(({ chip }) => chip));
  const reads = chips.map(({ chip: { site }, inputs }) => {
    const own = new Set<number>();
    for (const [i, { block }] of inputs.entries())
      if (block >= 0 && !site.spec.word?.data.includes(site.inputs[i]?.name ?? '')) own.add(block);
    return Int32Array.from(own);
  });
  const turns: ChipTurn[] = [];
  const seen = new Uint8Array(chips.length);
  const take = (chip: number): boolean => {
    if (seen[chip] !== 0) return seen[chip] === 2;
    seen[chip] = 1;
    for (const block of reads[chip] as Int32Array)
      for (const driver of drivers[block] as readonly number[]) if (!take(driver)) return false;
    seen[chip] = 2;
    turns.push({ chip, reads: reads[chip] as Int32Array });
    return true;
  };
  return chips.every((_, chip) => take(chip)) ? turns : undefined;
}
