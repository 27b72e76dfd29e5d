/** Plans, pictures and printed sheets in and out, by name; and the history. */
import { failed, sayChange } from '../../sim-core/index.ts';
import { pngPicture } from '../scene/picture.ts';
import { offerFile } from '../ui/offer-file.ts';
import type { Command, CommandContext } from './command.ts';
import { said } from './line.ts';

const action = (what: Omit<Command, 'group' | 'takes'>): Command => ({ ...what, group: 'Plan', takes: [] });

const open: Command = {
  name: 'open',
  synonyms: ['load', 'open demonstration', 'demo'],
  group: 'Plan',
  means: 'open a demonstration',
  example: 'open greenhouse',
  takes: [{ shown: 'PLAN', few: true, offers: ({ chooser }) => chooser.demos.map((d) => ({ word: d.id, means: d.title })) }],
  async run([word = ''], { chooser }) {
    const demo = chooser.demos.find((d) => d.id === word.toLowerCase());
    if (!demo)
      return failed(
        'command/unknown-name',
        word,
        `No demonstration "${word}". There are ${chooser.demos.map((d) => d.id).join(', ') || 'none'}.`,
      );
    await chooser.choose(demo.id);
    return said(`${demo.title} opened.`);
  },
};

const examples = action({
  name: 'examples',
  synonyms: ['gallery', 'demos', 'demonstrations', 'riddles', 'samples'],
  means: 'the examples with pictures, the riddles, a bench from a table',
  async run(_, { chooser }) {
    const failure = await chooser.showExamples();
    return failure ? { ok: false, failure } : said('');
  },
});

const save = action({
  name: 'save',
  synonyms: ['download', 'save as', 'save file'],
  means: 'save this bench as a file',
  keys: { 'Mod+S': 'save' },
  run: async (_, { chooser }) => said((await chooser.save()) ?? 'Nothing was saved.'),
});

const empty = action({
  name: 'new',
  synonyms: ['new bench', 'empty bench', 'new plan'],
  means: 'a new, empty bench; this one is kept',
  async run(_, { chooser }) {
    await chooser.empty();
    return said('New bench: one board and a supply.');
  },
});

const link: Command = {
  name: 'link',
  synonyms: ['copy link', 'share link'],
  group: 'Plan',
  means: 'copy a link that holds the whole bench, to be edited or only operated',
  example: 'link read-only',
  takes: [
    {
      shown: 'read-only',
      optional: true,
      few: true,
      offers: () => [{ word: 'read-only', means: 'its switches work, its parts and wires stay' }],
    },
  ],
  async run([word], { chooser }) {
    if (word !== undefined && word !== 'read-only') return failed('command/bad-word', word, `A link is plain or read-only, not "${word}".`);
    return said((await chooser.copyLink(word ? 'operate' : 'edit')) ?? 'No link was copied.');
  },
};

const share = action({
  name: 'share',
  synonyms: ['qr code', 'qr', 'send'],
  means: 'a link, a read-only link, a QR code',
  async run(_, { chooser }) {
    const failure = await chooser.share();
    return failure ? { ok: false, failure } : said('');
  },
});

const makeCopy = action({
  name: 'make a copy',
  synonyms: ['copy bench', 'duplicate bench'],
  means: 'the same bench once more, as your own',
  async run(_, { chooser }) {
    await chooser.copy();
    return said('This is a copy of the bench.');
  },
});

const rename: Command = {
  name: 'rename',
  synonyms: ['rename bench', 'title'],
  group: 'Plan',
  means: 'rename this bench',
  example: 'rename Vents and fans',
  takes: [{ shown: 'NAME', many: 'text' }],
  run([name = ''], { chooser }) {
    const title = name.slice(0, 120);
    chooser.rename(title);
    return said(`The bench is called ${title}.`);
  },
};

const undo = action({
  name: 'undo',
  synonyms: ['take back'],
  means: 'undo the last change',
  keys: { 'Mod+Z': 'undo' },
  run(_, { session }) {
    const { changes, at } = session.history;
    const last = changes[at - 1];
    if (!last)
      return failed(
        'command/not-possible',
        '',
        'Nothing to undo. Only edits are undone: a switch goes back by hand, for what the bench did meanwhile stays done.',
      );
    session.undo();
    return said(`Undid: ${sayChange(last)}.`);
  },
});

const redo = action({
  name: 'redo',
  synonyms: ['do again'],
  means: 'redo the change that was undone last',
  keys: { 'Mod+Shift+Z': 'redo', 'Mod+Y': 'redo' },
  run(_, { session }) {
    const { changes, at } = session.history;
    const next = changes[at];
    if (!next) return failed('command/not-possible', '', 'Nothing to redo.');
    session.redo();
    return said(`Redid: ${sayChange(next)}.`);
  },
});

async function savePicture(kind: 'svg' | 'png', { scene, session }: CommandContext) {
  const svg = await scene.picture();
  if (svg === undefined) return failed('page/no-bench', '', 'There is no bench to save as a picture yet.');
  const blob = kind === 'svg' ? new Blob([svg], { type: 'image/svg+xml' }) : await pngPicture(svg);
  offerFile(session.model?.plan.title ?? 'Bench', kind, blob);
  return said(`Picture saved as ${kind.toUpperCase()}.`);
}

const picture = (kind: 'svg' | 'png', means: string): Command =>
  action({
    name: `save ${kind}`,
    synonyms: [`export ${kind}`, `picture ${kind}`, ...(kind === 'png' ? ['picture', 'screenshot'] : ['drawing'])],
    means,
    run: (_, context) => savePicture(kind, context),
  });

const printBench = action({
  name: 'print',
  synonyms: ['print bench', 'picture print'],
  means: 'print the bench on one page',
  run() {
    print();
    return said('');
  },
});

const along = action({
  name: 'build along',
  synonyms: ['step by step', 'assemble', 'build on the real bench'],
  means: 'one step a screen, to build this bench beside it on a telephone',
  run() {
    location.hash = 'along';
    return said('Build along open.');
  },
});
const sheet = action({
  name: 'build sheet',
  synonyms: ['sheet', 'print sheet'],
  means: 'the build sheet of this bench, to print',
  run() {
    location.hash = 'sheet';
    return said('Build sheet open.');
  },
});

export const FILE_COMMANDS: readonly Command[] = [
  open,
  examples,
  empty,
  save,
  link,
  share,
  makeCopy,
  rename,
  undo,
  redo,
  sheet,
  along,
  printBench,
  picture('svg', 'save the bench as a drawing that stays sharp at any size'),
  picture('png', 'save the bench as a picture'),
];
