/** How the bench is looked at, and the pages of the notebook, by name. */
import { PAGES } from '../ui/route.ts';
import type { Command } from './command.ts';
import { refusal, said } from './line.ts';
import { ledOffers, partNamed, partOffers, thingNamed } from './name-lookup.ts';

const PAGE_MEANS: Readonly<Record<(typeof PAGES)[number], string>> = {
  why: 'why an LED is as it is',
  findings: 'what the checker has to say',
  table: 'wanted, stored and shown',
  build: 'from the table to a bench, its programming card and its proof',
  lists: 'parts, wiring, nets, and the bench as text',
  limits: 'what is computed, and what is not',
};

const zoom: Command = {
  name: 'zoom',
  group: 'Looking',
  means: 'nearer, farther, the whole bench, or to one thing',
  example: 'zoom U1',
  takes: [
    {
      shown: 'in, out, whole or THING',
      offers: (desk) => [{ word: 'in' }, { word: 'out' }, { word: 'whole', means: 'the whole bench' }, ...partOffers()(desk)],
    },
  ],
  keys: { '+': 'zoom in', '-': 'zoom out', '0': 'zoom whole' },
  run([word = ''], desk) {
    if (word === 'in') desk.scene.zoomBy(1.33);
    else if (word === 'out') desk.scene.zoomBy(0.75);
    else if (word === 'whole') desk.scene.fit();
    else {
      const thing = thingNamed(word, desk);
      if (!thing.ok) return thing;
      desk.scene.zoomTo(thing.value);
    }
    return said(word === 'whole' ? 'The whole bench is in sight.' : `Zoomed ${word === 'in' || word === 'out' ? word : `to ${word}`}.`);
  },
};

const look = (name: 'light' | 'dark', means: string): Command => ({
  name,
  group: 'Looking',
  means,
  takes: [],
  run(_, desk) {
    desk.wear(name);
    return said(name === 'dark' ? 'Dark slate.' : 'Light paper.');
  },
});

/** The lists of the page Lists are pages to whoever types. */
const LISTS: Readonly<Record<string, string>> = {
  parts: 'the list of parts',
  wiring: 'the list of wires, and what each is for',
  nets: 'what hangs together, and its volts',
  text: 'the bench as text, to be changed in place',
};

const page: Command = {
  name: 'page',
  group: 'Notebook',
  means: 'turn the notebook to a page or a list',
  example: 'page findings',
  takes: [
    {
      shown: 'PAGE',
      few: true,
      offers: () => [
        ...PAGES.map((p) => ({ word: p, means: PAGE_MEANS[p] })),
        ...Object.entries(LISTS).map(([word, means]) => ({ word, means })),
      ],
    },
  ],
  run([word = ''], desk) {
    const wish = word.toLowerCase();
    const found = PAGES.find((p) => p === wish);
    if (!found && !Object.hasOwn(LISTS, wish))
      return refusal(word, `The notebook has no page "${word}"; it has ${[...PAGES, ...Object.keys(LISTS)].join(', ')}.`);
    desk.turn(found ? { page: found } : { page: 'lists', about: wish });
    return said(`Page ${wish}.`);
  },
};

const why: Command = {
  name: 'why',
  group: 'Notebook',
  means: 'ask why an LED is lit, dim or dark',
  example: 'why vent',
  takes: [{ shown: 'LED', offers: ledOffers }],
  run([word = ''], desk) {
    const leds = desk.session.standing?.leds ?? [];
    const led = leds.find((l) => [l.led, l.name].some((n) => n.toLowerCase() === word.toLowerCase()));
    if (!led) {
      const part = partNamed(word, desk);
      return part.ok ? refusal(word, `${part.value.part.id} is no LED.`) : part;
    }
    desk.turn({ page: 'why', about: led.led });
    return said(`Why is ${led.name} as it is?`);
  },
};

const notebook: Command = {
  name: 'notebook',
  group: 'Notebook',
  means: 'fold the notebook away, or unfold it',
  takes: [
    {
      shown: 'away or back',
      few: true,
      offers: () => [
        { word: 'away', means: 'fold the notebook away' },
        { word: 'back', means: 'unfold it' },
      ],
    },
  ],
  run([word = ''], desk) {
    if (word !== 'away' && word !== 'back') return refusal(word, `"${word}" is neither away nor back.`);
    desk.fold(word === 'away');
    return said(word === 'away' ? 'The notebook is folded away.' : 'The notebook is open.');
  },
};

const keys: Command = {
  name: 'keys',
  group: 'Looking',
  means: 'the list of keys and actions',
  takes: [],
  keys: { '?': 'keys' },
  run(_, desk) {
    desk.showKeys();
    return said('');
  },
};

const line: Command = {
  name: 'command line',
  group: 'Looking',
  means: 'type any action by its name',
  takes: [],
  keys: { 'Mod+K': 'command line' },
  run(_, desk) {
    desk.showLine();
    return said('');
  },
};

export const LOOK_COMMANDS: readonly Command[] = [
  line,
  keys,
  zoom,
  look('dark', 'dark slate, for the evening and for a projector'),
  look('light', 'light paper'),
  page,
  why,
  notebook,
];
