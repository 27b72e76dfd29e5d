/** The size of print and pictures of the bench, by name. */

import { pngPicture } from '../scene/picture.ts';
import { present, presenting } from '../theme/presentation.ts';
import { offerFile } from '../ui/offer-file.ts';
import type { Command } from './command.ts';
import { refusal, said } from './line.ts';
import { partNamed, partOffers } from './name-lookup.ts';

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

const closeUp: Command = {
  name: 'close-up',
  group: 'Looking',
  means: 'a chip as blocks: pins, latches, cells',
  example: 'close-up U1',
  takes: [{ shown: 'CHIP', offers: partOffers((s) => s.isChip) }],
  run([word = ''], desk) {
    const found = partNamed(word, desk, 'chip', (s) => s.isChip);
    if (!found.ok) return found;
    desk.open(found.value.part.id);
    return said(`Close-up of ${found.value.part.id}.`);
  },
};

const strip: Command = {
  name: 'strip',
  group: 'Looking',
  means: 'the waveforms of the last write or read, or the last write once more, slowly',
  example: 'strip replay',
  takes: [
    {
      shown: 'open or replay',
      few: true,
      offers: () => [
        { word: 'open', means: 'the waveforms of the last write or read' },
        { word: 'replay', means: 'the last write or read once more, slowly' },
      ],
    },
  ],
  run([word = ''], { session, strip: of }) {
    if (word !== 'open' && word !== 'replay') return refusal(word, `"${word}" is neither open nor replay.`);
    if (!session.recordings.trace) return refusal(word, 'Nothing has been read or written yet, so there are no waveforms.');
    of().open();
    if (word === 'replay') of().play();
    return said(word === 'open' ? 'The timing strip is open.' : 'The last write or read passes slowly.');
  },
};

const sheet: Command = {
  name: 'sheet',
  group: 'Notebook',
  means: 'the build sheet of this bench, to be printed',
  takes: [],
  run() {
    location.hash = 'sheet';
    return said('The build sheet is open.');
  },
};

export const VIEW_COMMANDS: readonly Command[] = [sheet, closeUp, strip, size, picture];
