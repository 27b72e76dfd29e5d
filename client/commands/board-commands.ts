/** Boards by name: added, moved, cut at the middle of their rails; and all rails joined in one act. Taking one off is an action on things. */
import { addBoard, joinRails, type Outcome } from '../core.ts';
import type { Command, Desk, Slot } from './command.ts';
import { afterWord, refusal } from './line.ts';

const BOARD: Slot = {
  shown: 'BOARD',
  offers: ({ session }) =>
    (session.standing?.plan.boards ?? []).map((b) => ({ word: b.id, means: b.splitRails ? 'its rails are cut' : 'its rails run through' })),
};

function boardNamed(word: string | undefined, { session }: Desk): Outcome<string> {
  const boards = session.standing?.plan.boards ?? [];
  const found = boards.find((b) => b.id.toLowerCase() === word?.toLowerCase());
  return found
    ? { ok: true, value: found.id }
    : refusal(
        word ?? '',
        `There is no board ${word ?? ''} on this bench; there ${boards.length === 1 ? 'is' : 'are'} ${boards.map((b) => b.id).join(', ')}.`,
      );
}

const WAYS: Readonly<Record<string, readonly [number, number]>> = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] };

const rails = (name: string, means: string, cut: boolean, says: (board: string) => string): Command => ({
  name,
  group: 'Building',
  means,
  example: `${name} B1`,
  takes: [BOARD],
  run([word], desk) {
    const board = boardNamed(word, desk);
    return board.ok ? afterWord(desk.builder.cutRails(board.value, cut), says(board.value)) : board;
  },
});

export const BOARD_COMMANDS: readonly Command[] = [
  {
    name: 'add board',
    group: 'Building',
    means: 'set another board below the others',
    takes: [
      {
        shown: '63 or 30',
        few: true,
        optional: true,
        offers: () => [
          { word: '63', means: 'a board of 63 rows' },
          { word: '30', means: 'a board of 30 rows' },
        ],
      },
    ],
    run: ([rows = '63'], { builder }) =>
      afterWord(
        builder.do((g) => addBoard(g, rows === '30' ? 'board-30' : 'board-63')),
        'A board is added.',
      ),
  },
  {
    name: 'move board',
    group: 'Building',
    means: 'move a board by so many pitches of a tenth of an inch, with all that stands on it',
    example: 'move board B1 down 3',
    takes: [
      BOARD,
      { shown: 'left, right, up or down', offers: () => Object.keys(WAYS).map((word) => ({ word, means: `to the ${word}` })) },
      { shown: 'PITCHES', optional: true },
    ],
    run([word, way = '', far = '1'], desk) {
      const board = boardNamed(word, desk);
      if (!board.ok) return board;
      const by = WAYS[way];
      const pitches = Number(far);
      if (!by) return refusal(way, `"${way}" is no way to move. Write left, right, up or down.`);
      if (!Number.isInteger(pitches) || pitches < 1)
        return refusal(far, `"${far}" is no number of pitches. Write a whole number from 1 on.`);
      return afterWord(desk.builder.move([board.value], [by[0] * pitches, by[1] * pitches]), `Board ${board.value} moved ${way}.`);
    },
  },
  rails(
    'cut rails',
    'cut the rails of a board in the middle, as some boards have them',
    true,
    (b) => `The rails of ${b} are cut in the middle.`,
  ),
  rails('whole rails', 'let the rails of a board run through', false, (b) => `The rails of ${b} run through.`),
  {
    name: 'join rails',
    group: 'Building',
    means: 'join all plus rails and all minus rails by wires',
    takes: [],
    run: (_, { builder }) => afterWord(builder.do(joinRails), 'The rails are joined.'),
  },
];
