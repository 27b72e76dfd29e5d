/** One byte of the table was never written. */
import { ERASED } from '../../document/memory-rows.ts';
import { hex } from '../../units/hex.ts';
import { defineFault } from '../fault.ts';
import { oneByte, tableMemories } from '../images.ts';

export const byteErased = defineFault({
  kind: 'byte-erased',
  of: 'contents',
  weight: 4,
  visible: 0.06,
  *find(bench) {
    for (const m of tableMemories(bench)) for (const at of m.addresses) yield* oneByte(bench, m, at, ERASED, hex(at, 3));
  },
});
