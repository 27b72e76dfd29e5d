/** Lines of many figures: a memory's bytes, what is told of its cells, and where switches stand. */
import type { TextToken } from './bench-words.ts';

const ADDRESS = /^[0-9A-F]{1,6}$/;
const BYTES = /^([0-9A-F]{2})+$/;

/** `000=FF00C3`, and `+AA55` goes on where the line before ended. A line of its own, `erased`, says only that there is a memory. */
export function readContents(id: string, rest: readonly TextToken[], memories: Map<string, Map<string, string>>): string | undefined {
  const image = memories.get(id) ?? new Map<string, string>();
  memories.set(id, image);
  if (rest.length === 0) return `there are no contents of ${id}. Write an address and bytes such as 00A=FF00, or "erased".`;
  return readImage(id, rest, image, 'erased');
}

function readImage(id: string, rest: readonly TextToken[], image: Map<string, string>, empty: string): string | undefined {
  for (const { text } of rest) {
    if (text === empty) continue;
    const more = text.startsWith('+');
    const [address = '', bytes = '', ...over] = (more ? `=${text.slice(1)}` : text).toUpperCase().split('=');
    if (over.length > 0 || !BYTES.test(bytes) || (!more && !ADDRESS.test(address)))
      return `"${text}" is not contents of ${id}: write a hexadecimal address and bytes of two figures each such as 00A=FF00, or +FF00 to go on.`;
    const last = [...image.keys()].at(-1);
    if (more && last === undefined) return `"${text}" goes on where nothing has begun. Write an address first, such as 00A=${bytes}.`;
    if (!more && image.has(address)) return `address ${address} of ${id} is given twice. Take one of the two out.`;
    if (more) image.set(last ?? '', `${image.get(last ?? '') ?? ''}${bytes}`);
    else image.set(address, bytes);
  }
  return undefined;
}

/** What is told of a memory's cells beside its bytes. */
export interface CellDraft {
  uncertain?: Map<string, string>;
  charge?: Map<string, string>;
  writes?: Map<string, [times: number, cells: number]>;
}

/** Nothing, where a list has to be there and is empty. */
export const NO_BYTES = 'nothing';

/** `cells uncertain 000=0F`, `cells charge 000=…`, `cells writes 000=12x4`: written twelve times each, four cells from there on. */
export function readCellLine(id: string, [what, ...rest]: readonly TextToken[], cells: Map<string, CellDraft>): string | undefined {
  const draft = cells.get(id) ?? {};
  cells.set(id, draft);
  if (what?.text === NO_BYTES) return undefined;
  if (what?.text === 'uncertain' || what?.text === 'charge') {
    const image = draft[what.text] ?? new Map<string, string>();
    draft[what.text] = image;
    return readImage(id, rest, image, NO_BYTES);
  }
  if (what?.text !== 'writes') return `"${what?.text ?? ''}" is not told of cells: write uncertain, charge, writes, or nothing.`;
  draft.writes ??= new Map();
  for (const { text } of rest) {
    const m = /^([0-9A-F]{1,6})=(\d+)x(\d+)$/.exec(text);
    if (!m && text !== NO_BYTES)
      return `"${text}" does not say how often cells of ${id} were written: write the first address, how often, and how many cells, such as 00A=12x4.`;
    if (m) draft.writes.set(m[1] ?? '', [Number(m[2]), Number(m[3])]);
  }
  return undefined;
}

/** One 0 or 1 a pole; `none` for a thing without poles. */
export function readHands(id: string, rest: readonly TextToken[], switches: Map<string, boolean[]>): string | undefined {
  const closed = rest.map((w) => w.text).join('');
  if (closed === 'none') switches.set(id, []);
  else if (/^[01]+$/.test(closed))
    switches.set(
      id,
      [...closed].map((c) => c === '1'),
    );
  else return `"${closed}" does not say how ${id} stands: write one 0 or 1 a pole, such as 10110.`;
  return undefined;
}
