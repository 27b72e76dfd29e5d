/** The image was made with the inputs in reverse order. */
import { defineFault } from '../fault.ts';
import { eachRow, permuted, tableMemories } from '../images.ts';

export const addressReversed = defineFault({
  kind: 'address-reversed',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) => eachRow(bench, m, (at) => m.bytes[permuted(at, m.lines, [...m.lines].reverse())] ?? 0)),
});
