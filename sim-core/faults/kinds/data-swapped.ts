/** The image was made with two neighbouring outputs swapped. */
import { defineFault } from '../fault.ts';
import { eachRow, permuted, swaps, tableMemories } from '../images.ts';

export const dataSwapped = defineFault({
  kind: 'data-swapped',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) =>
      swaps(m.bits).flatMap(([a, b]) => eachRow(bench, m, (at) => permuted(m.bytes[at] ?? 0, [a, b], [b, a]), `D${a} D${b}`)),
    ),
});
