/** The image was written one address too high, or too low. */
import { defineFault } from '../fault.ts';
import { eachRow, tableMemories } from '../images.ts';

export const rowsShifted = defineFault({
  kind: 'rows-shifted',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) =>
      [1, -1].flatMap((by) => {
        const n = m.addresses.length;
        return eachRow(bench, m, (_, row) => m.bytes[m.addresses[(row + by + n) % n] ?? 0] ?? 0, by < 0 ? '-1' : '+1');
      }),
    ),
});
