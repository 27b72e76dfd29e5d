/** The image was made with two neighbouring inputs swapped. */
import { defineFault } from '../fault.ts';
import { eachRow, permuted, swaps, tableMemories } from '../images.ts';

export const addressSwapped = defineFault({
  kind: 'address-swapped',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) =>
      swaps(m.lines).flatMap(([a, b]) => eachRow(bench, m, (at) => m.bytes[permuted(at, [a, b], [b, a])] ?? 0, `A${a} A${b}`)),
    ),
});
