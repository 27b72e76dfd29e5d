/** In which order the chips of a bench of blocks are asked, each after those that it waits for. */
import type { BenchBlocks } from './bench-blocks.ts';

/** A chip, and the blocks that it has to know first. */
export interface ChipTurn {
  readonly chip: number;
  readonly reads: Int32Array;
}

/** Undefined where a chip waits for itself; isAsked: chips that pull nothing in any row wait for nothing. What a memory takes from its data pins moves nothing while it is not written to. */
export function askingOrder({ blocks, chips }: BenchBlocks, isAsked: (chip: number) => boolean): ChipTurn[] | undefined {
  const reads = chips.map(({ chip: { site }, inputs }) => {
    const own: number[] = [];
    for (const [i, { block }] of inputs.entries())
      if (block >= 0 && !own.includes(block) && !site.spec.word?.data.includes(site.inputs[i]?.name ?? '')) own.push(block);
    return Int32Array.from(own);
  });
  const turns: ChipTurn[] = [];
  const seen = new Uint8Array(chips.length);
  const take = (chip: number): boolean => {
    if (seen[chip] !== 0) return seen[chip] === 2;
    seen[chip] = 1;
    for (const block of reads[chip] as Int32Array)
      for (const { chip: driver } of (blocks[block] as BenchBlocks['blocks'][number]).outputs)
        if (isAsked(driver) && !take(driver)) return false;
    seen[chip] = 2;
    turns.push({ chip, reads: reads[chip] as Int32Array });
    return true;
  };
  return chips.every((_, chip) => !isAsked(chip) || take(chip)) ? turns : undefined;
}
