/** One bit of one byte is wrong. */
import { hex } from '../../units/hex.ts';
import { defineFault } from '../fault.ts';
import { oneByte, tableMemories } from '../images.ts';

export const bitWrong = defineFault({
  kind: 'bit-wrong',
  of: 'contents',
  weight: 3,
  visible: 0.06,
  *find(bench) {
    for (const m of tableMemories(bench))
      for (const at of m.addresses)
        for (const bit of m.bits) yield* oneByte(bench, m, at, (m.bytes[at] ?? 0) ^ (1 << bit), `${hex(at, 3)} bit ${bit}`);
  },
});
