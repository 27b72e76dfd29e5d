/** A memory is erased: nobody has written it. */
import { ERASED } from '../../document/memory-rows.ts';
import { defineFault } from '../fault.ts';
import { eachRow, tableMemories } from '../images.ts';

export const imageErased = defineFault({
  kind: 'image-erased',
  of: 'contents',
  weight: 1,
  visible: 0,
  find: (bench) => tableMemories(bench).flatMap((m) => eachRow(bench, m, () => ERASED)),
});
