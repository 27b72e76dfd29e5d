/** The image was made with every output inverted. */
import { defineFault } from '../fault.ts';
import { eachRow, tableMemories } from '../images.ts';

export const dataInverted = defineFault({
  kind: 'data-inverted',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) => eachRow(bench, m, (at) => m.bits.reduce((byte, bit) => byte ^ (1 << bit), m.bytes[at] ?? 0))),
});
