/** The image was made with the outputs in reverse order. */
import { defineFault } from '../fault.ts';
import { eachRow, permuted, tableMemories } from '../images.ts';

export const dataReversed = defineFault({
  kind: 'data-reversed',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) => eachRow(bench, m, (at) => permuted(m.bytes[at] ?? 0, m.bits, [...m.bits].reverse()))),
});
