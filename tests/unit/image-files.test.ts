/** Which form a file of bytes is in: what it begins with counts, whatever its name says. */
import { expect, test } from 'vitest';
import { readImage } from '../../client/panel/table/image-files.ts';

const S_RECORD = 'S104000042B9\nS9030000FC\n';
const HEX = ':0100000042BD\n:00000001FF\n';
const read = async (name: string, text: string) => {
  const made = await readImage(new File([text], name), { size: 64 });
  return made.ok ? made.value.image.bytes[0] : made.failure.says;
};

test.each([
  ['read-out.hex', HEX],
  ['read-out.hex', S_RECORD],
  ['read-out.s19', `\r\n${HEX}`],
  ['read-out.txt', S_RECORD],
  ['read-out', HEX],
  ['read-out.csv', 'address,byte\n0,0x42\n'],
  ['read-out.bin', 'B'],
])('%s is read as what it holds', async (name, text) => {
  expect(await read(name, text)).toBe(0x42);
});

test('a binary file stays one, also if it begins like a record', async () => {
  expect(await read('read-out.bin', HEX)).toBe(':'.charCodeAt(0));
});

test('what is none of them is told with its name', async () => {
  expect(await read('read-out.hex', 'hello')).toMatch(/^read-out\.hex: line 1 begins with "hello"/);
});
