/** What the static RAMs share: how their pins select, read and write them. */
import type { PartKind } from '../part.ts';
import { type DcFigures, memoryPart } from './data-sheet.ts';
import { STATIC_MARKS, StaticRamChip, type StaticTiming, staticFigures } from './static-ram-behaviour.ts';

/** What one of them has of its own. */
export interface StaticSheet {
  readonly id: string;
  readonly title: string;
  readonly pins: string;
  /** its chip selects, all of which must be active; a slash before what is active low */
  readonly selects: readonly [first: string, ...others: string[]];
  readonly timing: StaticTiming;
  readonly dc: DcFigures;
}

const activeAt = (select: string): 0 | 1 => (select.startsWith('/') ? 0 : 1);

export function staticRam({ id, title, pins, selects, timing, dc }: StaticSheet): PartKind {
  return memoryPart({
    id,
    title,
    synonyms: ['SRAM', 'RAM'],
    pins,
    toRead: { ...Object.fromEntries(selects.map((s) => [s, activeAt(s) === 0 ? 'L' : 'H'])), '/OE': 'L', '/WE': 'H' },
    writable: true,
    forgets: true,
    supplyMarks: STATIC_MARKS,
    dc,
    figures: staticFigures(timing),
    start: (bench, { address, data, enable }, contents) =>
      new StaticRamChip(
        bench,
        { address, data, select: selects.map(enable), outputEnable: enable('/OE'), writeEnable: enable('/WE') },
        timing,
        contents,
      ),
  });
}
