/** One byte was written with what belongs to the next row. */
import { hex } from '../../units/hex.ts';
import { defineFault } from '../fault.ts';
import { oneByte, tableMemories } from '../images.ts';

export const byteOfNextRow = defineFault({
  kind: 'byte-of-next-row',
  of: 'contents',
  weight: 4,
  visible: 0.06,
  *find(bench) {
    for (const m of tableMemories(bench))
      for (const [row, at] of m.addresses.entries()) {
        const next = m.addresses[(row + 1) % m.addresses.length] ?? at;
        yield* oneByte(bench, m, at, m.bytes[next] ?? 0, hex(at, 3));
      }
  },
});
