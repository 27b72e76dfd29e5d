/** The image was written into another part of the memory, where the unused address pins never look. */
import { ERASED } from '../../document/memory-rows.ts';
import { defineFault } from '../fault.ts';
import { holding, tableMemories } from '../images.ts';

export const imageElsewhere = defineFault({
  kind: 'image-elsewhere',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) =>
    tableMemories(bench).flatMap((m) =>
      [...m.address.keys()]
        .filter((line) => !m.lines.includes(line))
        .flatMap((line) => {
          const after = m.bytes.slice();
          for (const at of m.addresses) after[at ^ (1 << line)] = m.bytes[at] ?? 0;
          for (const at of m.addresses) after[at] = ERASED;
          return holding(bench, m, after, `A${line}`);
        }),
    ),
});
