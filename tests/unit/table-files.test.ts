/** Tables as files have them: encodings, a line that names the separator, and what was cut off or left out. */
import { describe, expect, test } from 'vitest';
import { textOfFile } from '../../shared/file-text.ts';
import { readTableFile, type TruthTable } from '../../sim-core/index.ts';

const TEXT = 'hot,damp,,Lüfter\n0,0,,0\n0,1,,1\n1,0,,1\n1,1,,X\n';
const utf16 = (text: string, little: boolean): Uint8Array =>
  Uint8Array.from(
    [...text].flatMap((c) => (little ? [c.charCodeAt(0) & 0xff, c.charCodeAt(0) >> 8] : [c.charCodeAt(0) >> 8, c.charCodeAt(0) & 0xff])),
  );
const latin = (text: string): Uint8Array => Uint8Array.from([...text].map((c) => c.charCodeAt(0)));
const read = (bytes: Uint8Array) => {
  const text = textOfFile(bytes, 'fan.csv');
  return text.ok ? text.value : text.failure.says;
};
const said = (text: string, known?: TruthTable) => {
  const table = readTableFile(text, known);
  return table.ok ? table.value.remarks : [table.failure.says];
};

describe('the text of a file', () => {
  test('is read from UTF-8, UTF-16 of either order with and without a mark, and Windows-1252', () => {
    const utf8 = new TextEncoder().encode(TEXT);
    const ways = [utf8, Uint8Array.of(0xef, 0xbb, 0xbf, ...utf8), utf16(TEXT, true), utf16(TEXT, false), utf16(`\ufeff${TEXT}`, true)];
    expect([...ways, utf16(`\ufeff${TEXT}`, false), latin(TEXT)].map(read)).toEqual(Array.from({ length: 7 }, () => TEXT));
    expect(read(Uint8Array.of(0x80, 0x20, 0x93, 0x61, 0x94))).toBe('€ “a”');
    expect(read(new Uint8Array())).toBe('');
  });
  test('is refused with the true reason where it is a workbook, cut in a character, or no text', () => {
    expect(read(Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0))).toMatch(/^fan\.csv is a workbook or an archive, not text\. Save the table as CSV/);
    expect(read(utf16(`\ufeff${TEXT}`, true).slice(0, -1))).toMatch(
      /^fan\.csv begins as UTF-16LE text, .* may be cut off\. Save it again as UTF-8\.$/,
    );
    expect(read(Uint8Array.of(0x61, 0x00, 0x07, 0xff, 0x30))).toMatch(/^fan\.csv is not text in UTF-8, UTF-16 or Windows-1252/);
    expect(read(Uint8Array.of(0x61, 0x81, 0x62))).toMatch(/is not text in UTF-8/);
  });
});

describe('a table file', () => {
  test('may name its separator in a first line, and lines are counted with it', () => {
    const table = readTableFile(TEXT);
    for (const [mark, before] of [
      [';', 'sep=;\r\n'],
      ['|', '"sep=|"\n'],
      ['\t', 'SEP=\t\n'],
      [',', '\ufeffsep=,\n'],
    ] as const)
      expect(readTableFile(`${before}${TEXT.replaceAll(',', mark)}`)).toEqual(table);
    expect(said('sep=;\na;;b\n0;;2\n1;;1\n')[0]).toMatch(/^line 3: /);
  });
  test('with a line that is too short is refused, wherever it was cut in that line', () => {
    expect(said(TEXT.slice(0, -5))).toEqual([
      'line 5 has 2 cells, and the heading has 4. Add the missing cells, with X for don’t care; if the file was cut off, open the whole of it.',
    ]);
    expect(said('a,,b\n0\n1,,1\n')[0]).toMatch(/^line 2 has 1 cell, and the heading has 3\. /);
    // an empty cell at the end is a cell, and columns without a name are none
    expect(said('a,,b,\n0,,\n1,,1\n')).toEqual([]);
  });
  test('that gives fewer rows says so, and what becomes of the others', () => {
    expect(said(TEXT)).toEqual([]);
    const cut = TEXT.split('\n').slice(0, 3).join('\n');
    const whole = readTableFile(TEXT);
    expect(said(cut)).toEqual([
      '2 of 4 rows are given; the others, from row 2 on, are don’t care (–). If the file was cut off, open the whole of it.',
    ]);
    expect(said(cut, whole.ok ? whole.value.table : undefined)[0]).toMatch(/from row 2 on, stay as they were\./);
  });
  test('without an empty column says what it took for inputs', () => {
    expect(said('A0,A1,Y\n0,0,1\n1,0,0\n')).toEqual([
      'No column is empty, so the number of lines decides: A0 is the input, A1 and Y are the outputs. If that is wrong, leave one column empty between inputs and outputs.',
    ]);
  });
});
