/** Files that are opened in the page: their encoding is found, what is no text is refused with the reason, and whatever was opened, the next file is opened too. */
import { describe, expect, test } from 'vitest';
import { readImage } from '../../client/panel/table/image-files.ts';
import { bytesIn } from '../../client/ui/opened-file.ts';
import { writeBenchText } from '../../sim-core/index.ts';
import { FakeBrowser, type Tab } from '../support/fake-browser.ts';
import { HOSTILE_DOCUMENTS } from '../support/hostile-texts.ts';
import { expectOneSentence } from '../support/one-sentence.ts';
import { ledPlan } from '../support/plans.ts';

const utf16 = (text: string, big: boolean, mark = true) => {
  const bytes = new Uint8Array(2 * (text.length + 1));
  const view = new DataView(bytes.buffer);
  for (const [i, code] of [0xfeff, ...Array.from(text, (c) => c.charCodeAt(0))].entries()) view.setUint16(2 * i, code, !big);
  return mark ? bytes : bytes.slice(2);
};
/** Every character of it has a code below 256. */
const western = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));

const TITLE = 'Küche, 12 µF';
const plan = { ...ledPlan(330), title: TITLE };
const json = JSON.stringify(plan);
const notation = writeBenchText(plan);
const open = (tab: Tab, content: Uint8Array<ArrayBuffer> | string, name = 'kitchen.plan.json') =>
  tab.until(tab.benches.openFile(new File([content], name)));

describe('a plan', () => {
  test.each([
    ['UTF-8', new TextEncoder().encode(json), 'kitchen.plan.json'],
    ['UTF-8 with a byte order mark', new TextEncoder().encode(`\ufeff${json}`), 'kitchen.plan.json'],
    ['UTF-16, little end first', utf16(json, false), 'kitchen.plan.json'],
    ['UTF-16, big end first', utf16(json, true), 'kitchen.plan.json'],
    ['UTF-16 without a byte order mark', utf16(json, false, false), 'kitchen.plan.json'],
    ['Windows-1252', western(json), 'kitchen.plan.json'],
    ['Windows-1252, in the text notation', western(notation), 'kitchen.plan.txt'],
    ['UTF-16, in the text notation', utf16(notation, false), 'kitchen.plan.txt'],
  ])('in %s opens with its letters', async (_, bytes, name) => {
    const tab = await new FakeBrowser().visit();
    await open(tab, bytes, name);
    expect([tab.session.plan?.title, tab.refused]).toEqual([TITLE, []]);
  });

  test.each([
    ['a workbook', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0), /^kitchen\.plan\.json is a workbook or an archive, not text\./],
    [
      'cut in the middle of a character',
      utf16(json, false).slice(0, -1),
      /begins as UTF-16LE text, but has bytes that are none; it may be cut off\./,
    ],
    ['bytes of no text', Uint8Array.of(0x7b, 1, 2, 3, 0xff), /is not text in UTF-8, UTF-16 or Windows-1252/],
  ])('that is %s is refused with the reason', async (_, bytes, says) => {
    const tab = await new FakeBrowser().visit();
    await open(tab, bytes);
    expect(tab.refused.map((f) => f.code)).toEqual(['file/not-text']);
    expect(tab.refused[0]!.says).toMatch(says);
  });

  test('that is a folder, or is there no more, is refused, and the next file opens', async () => {
    const tab = await new FakeBrowser().visit();
    const gone = Object.assign(new File([], 'gone.plan.json'), {
      arrayBuffer: () => Promise.reject(new DOMException('', 'NotFoundError')),
    });
    await tab.until(tab.benches.openFile(gone));
    expect(tab.refused.map((f) => [f.code, f.at])).toEqual([['file/unreadable', 'gone.plan.json']]);
    expect(await bytesIn(gone)).toMatchObject({ ok: false });
    await open(tab, json);
    expect(tab.session.plan?.title).toBe(TITLE);
  });
});

const hostile = HOSTILE_DOCUMENTS.filter(([what]) =>
  [
    '2.4 million escapes in a string that is not closed',
    '2.4 million escapes in a list that is not closed',
    'lists in lists as the format',
    'objects in objects as the version',
    'lists in lists as parts',
    '100 000 parts',
  ].includes(what),
);

test('files that nobody writes are each refused in one sentence, one after the other, and the plan that waits behind them opens', async () => {
  expect(hostile).toHaveLength(6);
  const tab = await new FakeBrowser().visit();
  const asked = [...hostile.map(([, text]) => text), json].map((text) => tab.benches.openFile(new File([text], 'x.plan.json')));
  for (const opening of asked) await tab.until(opening);
  expect(tab.refused).toHaveLength(hostile.length);
  for (const failure of tab.refused) expectOneSentence(failure);
  expect(tab.session.plan?.title).toBe(TITLE);
});

test.each([
  ['Intel HEX', 'read-out.hex', ':0100000042BD\n:00000001FF\n'],
  ['S-record', 'read-out.s19', 'S104000042B9\nS9030000FC\n'],
  ['CSV', 'read-out.csv', 'address,byte\n0,0x42\n'],
  ['Intel HEX by what it begins with', 'read-out', ':0100000042BD\n:00000001FF\n'],
])('an image as %s is read in UTF-16 too', async (_, name, text) => {
  for (const big of [false, true]) {
    const read = await readImage(new File([utf16(text, big)], name), { size: 64 });
    expect(read.ok ? read.value.image.bytes[0] : read.failure.says).toBe(0x42);
  }
});

test('an image that is a workbook is refused as one, and bytes stay bytes', async () => {
  const workbook = Uint8Array.of(0x50, 0x4b, 3, 4);
  const read = async (name: string) => {
    const made = await readImage(new File([workbook], name), { size: 64 });
    return made.ok ? made.value.image.bytes.slice(0, 4) : made.failure.code;
  };
  expect(await read('image.csv')).toBe('file/not-text');
  expect(await read('image.bin')).toEqual(workbook);
});
