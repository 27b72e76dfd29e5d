/** The panel's pages and lists, by name. */
import { readQuestion, writeQuestion } from '../../sim-core/index.ts';
import type { Route } from '../ui/route.ts';
import type { Command } from './command.ts';
import { said } from './line.ts';
import { ledOffers, wireOffers } from './name-lookup.ts';

const page = (name: string, synonyms: readonly string[], means: string, to: Route): Command => ({
  name,
  synonyms,
  group: 'Panel',
  means,
  takes: [],
  run(_, context) {
    context.showPage(to);
    return said(`${means.charAt(0).toUpperCase()}${means.slice(1)}.`);
  },
});

const why: Command = {
  name: 'why',
  synonyms: ['explain', 'ask why', 'why is'],
  group: 'Panel',
  means:
    'explain why an LED is lit, dim or dark, a pin high or low, what a wire carries, a memory its row, what came of a write, or why something flickers',
  example: 'why vent',
  takes: [
    {
      shown: 'LED, PIN, WIRE or MEMORY',
      optional: true,
      many: 'text',
      offers: (context) => [...ledOffers(context), ...wireOffers(context)],
    },
  ],
  run([text], context) {
    const { model } = context.session;
    if (text === undefined || !model) {
      context.showPage({ page: 'why' });
      return said('Why.');
    }
    const led = model.leds.find((l) => l.name.toLowerCase() === text.toLowerCase());
    const question = readQuestion(led?.led ?? text, { plan: model.plan, leds: model.leds.map((l) => l.led) });
    if (!question.ok) return question;
    const about = writeQuestion(question.value);
    context.showPage({ page: 'why', about });
    return said(`Why ${led?.name ?? about}.`);
  },
};

const panel = (name: 'hide panel' | 'show panel', synonyms: readonly string[]): Command => ({
  name,
  synonyms,
  group: 'Panel',
  means: name === 'hide panel' ? 'hide the panel at the side' : 'show the panel at the side',
  takes: [],
  run(_, context) {
    context.hidePanel(name === 'hide panel');
    return said(name === 'hide panel' ? 'Panel hidden.' : 'Panel shown.');
  },
});

export const PANEL_COMMANDS: readonly Command[] = [
  why,
  page('findings', ['problems', 'check', 'faults', 'warnings', 'fault finding', 'troubleshoot', 'debug'], 'what the checker found', {
    page: 'findings',
  }),
  page('table', ['truth table', 'rows', 'logic', 'gates', 'karnaugh map'], 'the truth table: wanted, stored, shown', { page: 'table' }),
  page(
    'bytes',
    ['image', 'hex file', 'hex dump', 'checksum', 'memory contents', 'verify'],
    'the bytes of a memory: image files in and out, checksums',
    {
      page: 'table',
      about: 'bytes',
    },
  ),
  page('build', ['build page', 'make bench', 'synthesise'], 'from the table to a bench', { page: 'build' }),
  page(
    'programming card',
    ['card', 'write by hand', 'program', 'programmer', 'burn', 'blow'],
    'the programming card, to write an image by hand',
    {
      page: 'build',
      about: 'card',
    },
  ),
  page('prove', ['proof', 'prove all rows', 'test all rows', 'self test'], 'go through every row on the bench as wired', {
    page: 'build',
    about: 'proof',
  }),
  page('part list', ['list parts', 'bill of materials', 'bom'], 'the list of parts', { page: 'lists', about: 'parts' }),
  page('wire list', ['wires', 'list wires', 'wiring list'], 'the list of wires, and what each is for', { page: 'lists', about: 'wires' }),
  page(
    'net list',
    ['nets', 'list nets', 'netlist', 'schematic', 'continuity', 'ohmmeter'],
    'the list of nets: what is connected to what, and the voltages',
    { page: 'lists', about: 'nets' },
  ),
  page('bench as text', ['text', 'as text', 'edit text'], 'the bench as text, to edit in place', { page: 'lists', about: 'text' }),
  page('limits', ['about', 'what is modelled'], 'what is computed, and what is not', { page: 'limits' }),
  panel('hide panel', ['close panel', 'fold panel']),
  panel('show panel', ['open panel', 'panel']),
];
