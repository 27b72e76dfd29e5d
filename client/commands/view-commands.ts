/** The size of print and pictures of the bench, by name. */
import { present, presenting } from '../look/presentation.ts';
import { offerFile } from '../plans/plan-files.ts';
import { pngPicture } from '../scene/picture.ts';
import type { Command } from './command.ts';
import { refusal, said } from './line.ts';

const SIZES = [
  { word: 'presentation', means: 'larger print and levels, for a projector' },
  { word: 'usual', means: 'the usual size of print' },
];

const size: Command = {
  name: 'size',
  group: 'Looking',
  means: 'larger print for a projector, or the usual one',
  example: 'size presentation',
  takes: [{ shown: 'presentation or usual', optional: true, few: true, offers: () => SIZES }],
  keys: { P: 'size' },
  run([word], _desk) {
    if (word !== undefined && !SIZES.some((s) => s.word === word)) return refusal(word, `"${word}" is neither presentation nor usual.`);
    present(word === undefined ? !presenting() : word === 'presentation');
    return said(presenting() ? 'Presentation size.' : 'The usual size.');
  },
};

const KINDS = [
  { word: 'svg', means: 'the bench as a drawing that stays sharp' },
  { word: 'png', means: 'the bench as a picture of dots' },
  { word: 'print', means: 'the bench on one page' },
];

const picture: Command = {
  name: 'picture',
  group: 'Looking',
  means: 'save the bench as a picture, or print it',
  example: 'picture svg',
  takes: [{ shown: 'svg, png or print', few: true, offers: () => KINDS }],
  async run([word = ''], { scene, session }) {
    const title = session.standing?.plan.title ?? 'Bench';
    if (word === 'print') {
      print();
      return said('');
    }
    if (word !== 'svg' && word !== 'png') return refusal(word, `"${word}" is no kind of picture: write svg, png or print.`);
    const svg = await scene.picture();
    if (svg === undefined) return refusal(word, 'There is no bench yet to make a picture of.');
    offerFile(title, word, word === 'svg' ? new Blob([svg], { type: 'image/svg+xml' }) : await pngPicture(svg));
    return said(`The picture is saved as ${word.toUpperCase()}.`);
  },
};

export const VIEW_COMMANDS: readonly Command[] = [size, picture];
