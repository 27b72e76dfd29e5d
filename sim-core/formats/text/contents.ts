/** Lines of what memories hold: bytes by address, and what the bytes do not tell of the cells. A line that ends in a comma goes on in the next, at its address. */
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { hex } from '../../units/hex.ts';
import { type Codec, EMPTY_WORD, form, needed, pairs, record, value } from './clauses.ts';
import { lineKind, type PlanDraft } from './line-kind.ts';

type Image = Record<string, string>;
/** What one line holds; `more`: the next line goes on with the last entry. */
interface Piece {
  readonly image: Image;
  readonly more: boolean;
}

/** Figures on a line. */
const WIDTH = 64;
const hexadecimal = (figures: number, what: string): Codec<string> =>
  form(what, (text) => (new RegExp(`^([0-9A-F]{${figures}})+$`, 'i').test(text) ? text.toUpperCase() : undefined));
const ADDRESS = hexadecimal(1, 'a hexadecimal address');

function contents(figures: number, empty: string): Codec<Piece> {
  const list = pairs(hexadecimal(figures, `contents, ${figures} hexadecimal figures a cell`), ADDRESS, empty);
  return {
    ...list,
    read(words) {
      const more = words.at(-1)?.text === ',';
      const read = list.read(more ? words.slice(0, -1) : words);
      return read.ok ? done({ image: read.value, more }) : read;
    },
    write: ({ image, more }, word) => `${list.write(image, word)}${more ? ',' : ''}`,
  };
}

/** The address behind what begins at `address`. */
const behind = (address: string, contents: string, figures: number): string =>
  hex(Number.parseInt(address, 16) + contents.length / figures, address.length);

/** A piece into a list. The first entry may go on with the last one of the line before. */
function add(image: Image, { image: piece, more }: Piece, figures: number, draft: PlanDraft): Outcome<unknown> | undefined {
  let open = draft.open?.image === image ? draft.open.address : '';
  for (const [at, cells] of Object.entries(piece)) {
    const before = image[open] ?? '';
    const begun = before !== '' && at === behind(open, before, figures) ? open : at;
    if (begun === at && image[at] !== undefined)
      return failed('text/given-twice', '', `address ${at} is there twice. Remove one of the two.`);
    image[begun] = `${begun === at ? '' : before}${cells}`;
    draft.open = { image, address: begun };
    open = '';
  }
  if (!more) draft.open = undefined;
  return undefined;
}

/** The lines of an image; of an empty one, one that says so. */
const pieces = (image: Image, figures: number): Piece[] =>
  Object.keys(image).length === 0
    ? [{ image, more: false }]
    : Object.entries(image).flatMap(([address, cells]) =>
        Array.from({ length: Math.ceil(cells.length / WIDTH) }, (_, i) => ({
          image: { [behind(address, cells.slice(0, i * WIDTH), figures)]: cells.slice(i * WIDTH, (i + 1) * WIDTH) },
          more: (i + 1) * WIDTH < cells.length,
        })),
      );

export const MEMORY_LINE = lineKind({
  words: 'memory',
  example: 'memory U1 000 FF00C3',
  has: 'id',
  fields: { holds: needed(value(contents(2, 'erased'))) },
  path: (_, id) => `memories/${id}`,
  put({ holds }, draft, id) {
    const image = draft.plan.memories[id] ?? {};
    draft.plan.memories[id] = image;
    return add(image, holds, 2, draft);
  },
  lines: ({ memories }) => Object.entries(memories).flatMap(([id, image]) => pieces(image, 2).map((holds) => ({ id, said: { holds } }))),
});

/** `12x4`: each of four cells was written twelve times. */
const WRITES = form<[times: number, cells: number]>(
  'how often and how many cells were written, such as 12x4',
  (text) => {
    const [, times, cells] = /^(\d+)x(\d+)$/.exec(text) ?? [];
    return cells === undefined ? undefined : [Number(times), Number(cells)];
  },
  ([times, cells]) => `${times}x${cells}`,
);

const FIGURES = { uncertain: 2, charge: 32 } as const;
const LISTS = ['uncertain', 'charge'] as const;

export const CELLS_LINE = lineKind({
  words: 'cells',
  example: 'cells U1 uncertain 000 0F writes 000 12x4',
  has: 'id',
  fields: {
    uncertain: contents(FIGURES.uncertain, EMPTY_WORD),
    charge: contents(FIGURES.charge, EMPTY_WORD),
    writes: pairs(WRITES, ADDRESS),
  },
  path: (_, id) => `cells/${id}`,
  put({ writes, ...said }, draft, id) {
    const all = draft.plan.cells ?? record();
    draft.plan.cells = all;
    if (id === EMPTY_WORD && !writes && Object.keys(said).length === 0) return undefined;
    const cells = all[id] ?? {};
    all[id] = cells;
    if (writes) cells.writes = { ...cells.writes, ...writes };
    for (const list of LISTS) {
      const [piece, image] = [said[list], cells[list] ?? {}];
      if (piece) cells[list] = image;
      const refused = piece && add(image, piece, FIGURES[list], draft);
      if (refused) return refused;
    }
    return undefined;
  },
  lines({ cells }) {
    if (cells && Object.keys(cells).length === 0) return [{ id: EMPTY_WORD, said: {} }];
    return Object.entries(cells ?? {}).flatMap(([id, all]) => {
      const lists = LISTS.flatMap((list) => (all[list] ? pieces(all[list], FIGURES[list]).map((piece) => ({ [list]: piece })) : []));
      const said = all.writes ? [...lists, { writes: all.writes }] : lists;
      return (said.length === 0 ? [{}] : said).map((s) => ({ id, said: s }));
    });
  },
});
