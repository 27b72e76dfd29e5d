/** Boards by name: added, their rails cut or made continuous; and all rails connected in one act. A board is shifted and deleted as parts are. */
import { addBoard, difference, done, failed, joinRails, type Outcome, sayTidied } from '../../sim-core/index.ts';
import type { Command, CommandContext, Slot } from './command.ts';
import { afterWord, said } from './line.ts';

const BOARD: Slot = {
  shown: 'BOARD',
  offers: ({ session }) =>
    (session.model?.plan.boards ?? []).map((b) => ({
      word: b.id,
      means: b.splitRails ? 'rails cut in the middle' : 'rails continuous',
    })),
};

function boardNamed(word: string | undefined, { session }: CommandContext): Outcome<string> {
  const boards = session.model?.plan.boards ?? [];
  const found = boards.find((b) => b.id.toLowerCase() === word?.toLowerCase());
  return found
    ? done(found.id)
    : failed('command/unknown-name', word ?? '', `No board ${word ?? ''} on this bench. It has ${boards.map((b) => b.id).join(', ')}.`);
}

const rails = (name: string, synonyms: readonly string[], means: string, cut: boolean, says: (board: string) => string): Command => ({
  name,
  synonyms,
  group: 'Building',
  means,
  example: `${name} B1`,
  takes: [BOARD],
  run([word], context) {
    const board = boardNamed(word, context);
    return board.ok ? afterWord(context.builder.cutRails(board.value, cut), says(board.value)) : board;
  },
});

/** Selected things stay where they are. */
const tidy: Command = {
  name: 'tidy wiring',
  synonyms: ['tidy', 'tidy wires', 'neat', 'rearrange wires'],
  group: 'Building',
  means: 'put wires and resistors into holes where they cross less, with the same circuit; what is selected stays where it is',
  takes: [],
  async run(_, { session, builder, jobs }) {
    const { model, plan } = session;
    if (!model || !plan) return failed('page/no-bench', '', 'No bench is open: open one, then tidy its wiring.');
    const answer = await jobs.begin({ job: 'tidy', plan, locked: [...builder.selection] });
    if (!answer)
      return failed('page/action-stopped', 'tidy', 'Another command was begun before the wiring was tidied. Nothing was changed.');
    if (!answer.ok) return answer;
    if (session.model !== model)
      return failed(
        'page/action-stopped',
        'tidy',
        'The bench was changed while its wiring was being tidied, so nothing was moved. Tidy it again.',
      );
    session.edit(difference(plan, answer.value.plan));
    return said(sayTidied(answer.value.before, answer.value.after));
  },
};

export const BOARD_COMMANDS: readonly Command[] = [
  {
    name: 'add board',
    synonyms: ['new board', 'add breadboard', 'breadboard', 'protoboard', 'second board'],
    group: 'Building',
    means: 'add a board below the others',
    takes: [
      {
        shown: '63 or 30',
        few: true,
        optional: true,
        offers: () => [
          { word: '63', means: 'a board with 63 rows' },
          { word: '30', means: 'a board with 30 rows' },
        ],
      },
    ],
    run: ([rows = '63'], { builder }) =>
      rows === '63' || rows === '30'
        ? afterWord(
            builder.do((g) => addBoard(g, rows === '30' ? 'board-30' : 'board-63')),
            'Board added.',
          )
        : failed('command/bad-word', rows, `Boards have 63 or 30 rows, not "${rows}".`),
  },
  rails(
    'cut rails',
    ['split rails'],
    'cut the rails of a board in the middle, as some boards have them',
    true,
    (b) => `The rails of ${b} are cut in the middle.`,
  ),
  rails('continuous rails', ['whole rails'], 'make the rails of a board continuous', false, (b) => `The rails of ${b} are continuous.`),
  {
    name: 'connect rails',
    synonyms: ['join rails', 'wire rails', 'bus strips', 'ground rail', 'power rails'],
    group: 'Building',
    means: 'connect all + rails, and all − rails, with wires',
    takes: [],
    run: (_, { builder }) => afterWord(builder.do(joinRails), 'Rails connected.'),
  },
  tidy,
];
