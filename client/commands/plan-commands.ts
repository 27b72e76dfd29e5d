/** Plans in and out, taking back and making again, by name. */
import { sayChange } from '../core.ts';
import { outputsChange, wiringChange } from '../state/bench-options.ts';
import { replacement } from '../state/damage-text.ts';
import type { Command } from './command.ts';
import { refusal, said } from './line.ts';
import { partNamed, partOffers } from './name-lookup.ts';

const open: Command = {
  name: 'open',
  group: 'Plan',
  means: 'open a demonstration plan',
  example: 'open greenhouse',
  takes: [{ shown: 'PLAN', few: true, offers: ({ chooser }) => chooser.demos.map((d) => ({ word: d.id, means: d.title })) }],
  async run([word = ''], { chooser }) {
    const demo = chooser.demos.find((d) => d.id === word.toLowerCase());
    if (!demo)
      return refusal(word, `There is no demonstration "${word}"; there are ${chooser.demos.map((d) => d.id).join(', ') || 'none'}.`);
    await chooser.choose(demo.id);
    return said(`${demo.title} is open.`);
  },
};

const save: Command = {
  name: 'save',
  group: 'Plan',
  means: 'save this bench as a file',
  takes: [],
  async run(_, { chooser }) {
    const done = await chooser.save();
    return said(done ?? 'Nothing was saved.');
  },
};

const fresh: Command = {
  name: 'new',
  group: 'Plan',
  means: 'a new, empty bench; this one is kept',
  takes: [],
  async run(_, { chooser }) {
    await chooser.empty();
    return said('A new bench stands: one board and a supply.');
  },
};

const link: Command = {
  name: 'link',
  group: 'Plan',
  means: 'copy a link with the whole bench in it',
  takes: [],
  async run(_, { chooser }) {
    return said((await chooser.copyLink()) ?? 'No link was copied.');
  },
};

const rename: Command = {
  name: 'rename',
  group: 'Plan',
  means: 'give this bench another name',
  example: 'rename Vents and fans',
  takes: [{ shown: 'NAME', many: true }],
  run(words, { chooser }) {
    const title = words.join(' ').slice(0, 120);
    chooser.rename(title);
    return said(`The bench is called ${title}.`);
  },
};

const undo: Command = {
  name: 'undo',
  group: 'Plan',
  means: 'take the last change back',
  takes: [],
  keys: { 'Mod+Z': 'undo' },
  run(_, { session }) {
    const { changes, at } = session.history;
    const last = changes[at - 1];
    if (!last) return refusal('', 'Nothing has been changed, so there is nothing to take back.');
    session.undo();
    return said(`Taken back: ${sayChange(last)}.`);
  },
};

const redo: Command = {
  name: 'redo',
  group: 'Plan',
  means: 'make the change again that was taken back last',
  takes: [],
  keys: { 'Mod+Shift+Z': 'redo', 'Mod+Y': 'redo' },
  run(_, { session }) {
    const { changes, at } = session.history;
    const next = changes[at];
    if (!next) return refusal('', 'Nothing has been taken back, so there is nothing to make again.');
    session.redo();
    return said(`Made again: ${sayChange(next)}.`);
  },
};

const wiring: Command = {
  name: 'wiring',
  group: 'Building',
  means: 'give wires and rails their resistance, or take it away',
  example: 'wiring real',
  takes: [
    {
      shown: 'WHICH',
      few: true,
      offers: () => [
        { word: 'real', means: 'wires and rails have resistance' },
        { word: 'ideal', means: 'they have none' },
      ],
    },
  ],
  run([word = ''], { session }) {
    const plan = session.standing?.plan;
    if (!plan || (word !== 'real' && word !== 'ideal')) return refusal(word, `Wiring is real or ideal, not "${word}".`);
    session.edit(wiringChange(plan, word === 'real'));
    return said(word === 'real' ? 'Wires and rails have resistance now.' : 'Wires and rails are ideal now.');
  },
};

const outputs: Command = {
  name: 'outputs',
  group: 'Building',
  means: 'let outputs give what is typical, or only what is guaranteed',
  example: 'outputs guaranteed',
  takes: [
    {
      shown: 'WHICH',
      few: true,
      offers: () => [
        { word: 'typical', means: 'as most specimens do' },
        { word: 'guaranteed', means: 'no more than their sheets promise' },
      ],
    },
  ],
  run([word = ''], { session }) {
    const plan = session.standing?.plan;
    if (!plan || (word !== 'typical' && word !== 'guaranteed')) return refusal(word, `Outputs are typical or guaranteed, not "${word}".`);
    session.edit(outputsChange(plan, word === 'guaranteed'));
    return said(word === 'guaranteed' ? 'Outputs give only what is guaranteed now.' : 'Outputs give what is typical now.');
  },
};

const renew: Command = {
  name: 'renew',
  group: 'Building',
  means: 'put a new one in the place of a damaged part',
  example: 'renew L3',
  takes: [{ shown: 'PART', offers: partOffers((s) => Boolean(s.part.damaged)) }],
  run([word = ''], desk) {
    const found = partNamed(word, desk);
    if (!found.ok) return found;
    const plan = desk.session.standing?.plan;
    const change = plan && replacement(plan, found.value.part.id);
    if (!change) return refusal(word, `${found.value.part.id} is not damaged.`);
    desk.session.edit(change);
    return said(`${found.value.part.id} is replaced.`);
  },
};

export const PLAN_COMMANDS: readonly Command[] = [open, fresh, save, link, rename, undo, redo, wiring, outputs, renew];
