/** A board's rails are cut in the middle, and the plan takes them for whole. */
import { defineFault } from '../fault.ts';

export const railsSplit = defineFault({
  kind: 'rails-split',
  of: 'wiring',
  weight: 4,
  visible: 0.5,
  find: ({ plan }) =>
    plan.boards
      .filter((b) => !b.splitRails)
      .map((before) => ({
        where: before.id,
        things: [{ kind: 'board', id: before.id }],
        places: [],
        change: { op: 'replace', list: 'boards', before, after: { ...before, splitRails: true } },
      })),
});
