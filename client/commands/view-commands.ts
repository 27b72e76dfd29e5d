/** How the bench is looked at, by name: zoom, theme, presentation mode, the timing diagram, a chip from inside. */
import { failed } from '../../sim-core/index.ts';
import { present, presenting } from '../theme/presentation.ts';
import type { Command } from './command.ts';
import { said } from './line.ts';
import { partNamed, partOffers, thingNamed } from './name-lookup.ts';

const action = (what: Omit<Command, 'group' | 'takes'>): Command => ({ ...what, group: 'View', takes: [] });

const zoomTo: Command = {
  name: 'zoom to',
  synonyms: ['zoom', 'find', 'go to'],
  group: 'View',
  means: 'zoom to a part, a wire, a hole, or a percentage',
  example: 'zoom to U1',
  takes: [{ shown: 'PART, WIRE or HOLE, or 150 %', many: 'text', offers: partOffers() }],
  run([word = ''], context) {
    const { scene } = context;
    const percent = /^(\d+)\s*%?$/.exec(word)?.[1];
    if (percent !== undefined) {
      scene.zoom = Number(percent) / 100;
      return said(`Zoom ${Math.round(scene.zoom * 100)} %.`);
    }
    const thing = thingNamed(word, context);
    if (!thing.ok) return thing;
    context.scene.zoomTo(thing.value);
    return said(`Zoomed to ${word}.`);
  },
};

const zoomBy = (name: string, synonyms: readonly string[], key: string, by: number): Command =>
  action({
    name,
    synonyms,
    means: name,
    keys: { [key]: name },
    run(_, context) {
      context.scene.zoomBy(by);
      return said(`Zoomed ${by > 1 ? 'in' : 'out'}.`);
    },
  });

const zoomToSelection = action({
  name: 'zoom to selection',
  synonyms: ['zoom selection', 'show selection'],
  means: 'zoom to what is selected',
  keys: { Z: 'zoom to selection' },
  run(_, { builder, scene }) {
    if (builder.chosen.length === 0)
      return failed('edit/nothing-selected', '', 'Nothing is selected. Click a part or a wire, or write: zoom to U1');
    scene.zoomToAll(builder.chosen);
    return said('Zoomed to the selection.');
  },
});

const fit = action({
  name: 'fit',
  synonyms: ['zoom fit', 'fit bench', 'whole bench', 'zoom all', 'reset zoom'],
  means: 'fit the bench to the window',
  keys: { '0': 'fit' },
  run(_, context) {
    context.scene.fit();
    return said('The bench fits the window.');
  },
});

const theme = (name: 'light' | 'dark', synonyms: readonly string[]): Command =>
  action({
    name: `${name} theme`,
    synonyms,
    means: name === 'dark' ? 'ink on slate, for the evening or a projector' : 'ink on paper',
    run(_, context) {
      context.setTheme(name);
      return said(name === 'dark' ? 'Dark theme.' : 'Light theme.');
    },
  });

const presentation: Command = {
  name: 'presentation mode',
  synonyms: ['presentation', 'present', 'projector', 'large print'],
  group: 'View',
  means: 'make the bench and its letters larger, for a projector',
  example: 'presentation mode on',
  takes: [{ shown: 'on or off', optional: true, offers: () => [{ word: 'on' }, { word: 'off' }] }],
  keys: { P: 'presentation mode' },
  run([word], context) {
    if (word !== undefined && word !== 'on' && word !== 'off') return failed('command/bad-word', word, `"${word}" is neither on nor off.`);
    present(word === undefined ? !presenting() : word === 'on');
    // the bench fills the screen; a question opens the panel
    context.hidePanel(presenting());
    context.scene.fit();
    return said(`Presentation mode ${presenting() ? 'on' : 'off'}.`);
  },
};

const inside: Command = {
  name: 'inside view',
  synonyms: ['inside', 'look inside', 'open chip', 'pinout', 'block diagram'],
  group: 'View',
  means: 'show a chip as blocks: pins, latches, cells',
  example: 'inside view U1',
  takes: [{ shown: 'CHIP', offers: partOffers((s) => s.isChip) }],
  run([word = ''], context) {
    const found = partNamed(word, context, 'chip', (s) => s.isChip);
    if (!found.ok) return found;
    context.lookInside(found.value.part.id);
    return said(`Inside view of ${found.value.part.id}.`);
  },
};

const timing = (name: string, synonyms: readonly string[], means: string, replays: boolean): Command =>
  action({
    name,
    synonyms,
    means,
    run(_, context) {
      if (!context.session.recordings.trace)
        return failed('command/not-possible', '', 'Nothing has been written or read yet, so there are no waveforms.');
      context.timing().open();
      if (replays) context.timing().play();
      return said(replays ? 'Replaying slowly.' : 'Timing diagram open.');
    },
  });

const keys = action({
  name: 'keys',
  synonyms: ['shortcuts', 'commands', 'key list', 'list keys'],
  means: 'list all keys and commands',
  keys: { '?': 'keys' },
  run(_, context) {
    context.showKeys();
    return said('');
  },
});

const help = action({
  name: 'help',
  synonyms: ['how to', 'guide'],
  means: 'what this is, and how the bench is worked by mouse or finger',
  async run(_, context) {
    const failure = await context.showHelp();
    return failure ? { ok: false, failure } : said('');
  },
});

const firstSteps = action({
  name: 'first steps',
  synonyms: ['getting started', 'start here'],
  means: 'show the first steps again',
  run(_, context) {
    context.showFirstSteps();
    return said('First steps shown.');
  },
});

const line = action({
  name: 'command line',
  synonyms: ['command', 'type'],
  means: 'type any command',
  keys: { 'Mod+K': 'command line' },
  run(_, context) {
    context.showLine();
    return said('');
  },
});

export const VIEW_COMMANDS: readonly Command[] = [
  line,
  help,
  firstSteps,
  keys,
  zoomBy('zoom in', ['nearer', 'enlarge'], '+', 1.33),
  zoomBy('zoom out', ['farther', 'shrink'], '-', 0.75),
  fit,
  zoomTo,
  zoomToSelection,
  inside,
  timing(
    'timing diagram',
    ['timing', 'waveforms', 'scope', 'oscilloscope', 'logic analyser', 'logic analyzer'],
    'show the waveforms of the last write or read',
    false,
  ),
  timing('replay', ['slow motion', 'play'], 'replay the last write or read slowly', true),
  presentation,
  theme('dark', ['dark', 'dark mode', 'night']),
  theme('light', ['light', 'light mode', 'day']),
];
