/** What the static RAMs share: how their pins select, read and write them, and the vectors that show it. */
import type { PartKind, Vector } from '../part.ts';
import { type DcFigures, memoryPart } from './data-sheet.ts';
import { STATIC_MARKS, StaticRamChip, type StaticTiming, staticFigures } from './static-ram-behaviour.ts';
import { readWriteVectors } from './vectors.ts';

/** What one of them has of its own. */
interface StaticSheet {
  readonly id: string;
  readonly title: string;
  readonly pins: string;
  /** its chip selects, all of which must be active; a slash before what is active low */
  readonly selects: readonly [first: string, ...others: string[]];
  readonly timing: StaticTiming;
  readonly dc: DcFigures;
  /** beside those that all of them must pass */
  readonly moreVectors?: readonly Vector[];
}

export function staticRam({ id, title, pins, selects, timing, dc, moreVectors = [] }: StaticSheet): PartKind {
  const activeAt = (select: string) => (select.startsWith('/') ? 0 : 1);
  const [first] = selects;
  return memoryPart({
    id,
    title,
    pins,
    toRead: { ...Object.fromEntries(selects.map((s) => [s, activeAt(s) === 0 ? 'L' : 'H'])), '/OE': 'L', '/WE': 'H' },
    writable: true,
    forgets: true,
    supplyMarks: STATIC_MARKS,
    dc,
    figures: staticFigures(timing),
    vectors: [
      ...readWriteVectors({
        select: Object.fromEntries(selects.map((s) => [s, activeAt(s)])),
        unselect: { [first]: 1 - activeAt(first) },
        timing,
      }),
      ...moreVectors,
    ],
    start: (bench, { address, data, enable }, contents) =>
      new StaticRamChip(
        bench,
        { address, data, select: selects.map(enable), outputEnable: enable('/OE'), writeEnable: enable('/WE') },
        timing,
        contents,
      ),
  });
}
