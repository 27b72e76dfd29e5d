/** Rows and cells of a text from a spreadsheet: tabs, commas or semicolons between, quotation marks round what holds them (RFC 4180). */
import { done, failed, type Outcome } from '../../shared/outcome.ts';

export interface SeparatedRow {
  /** line on which the row begins, from 1 */
  readonly line: number;
  readonly cells: readonly string[];
}

/** A spreadsheet takes a cell that begins so for a formula, whoever wrote the file. An apostrophe before it keeps it a text (common practice, no source). */
const FORMULA = /^'*[=+\-@\t\r]/;
const guarded = (cell: string): string => (cell.length > 1 && FORMULA.test(cell) ? `'${cell}` : cell);
const unguarded = (cell: string): string => (cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell);

/** A first line that names the separator, as some spreadsheets write it. */
const NAMED = /^\ufeff?"?sep=([^\r\n])"?[ \t]*(?:\r\n|\n|\r)/i;

/**
 * Empty lines are left out, and a first line such as `sep=;`; cells are trimmed, and lose the apostrophe that keeps a spreadsheet from running them.
 * Fails with `table/open-quotes`.
 */
export function readSeparated(text: string): Outcome<readonly SeparatedRow[]> {
  const named = NAMED.exec(text);
  const mark = named?.[1] ?? separatorOf(text);
  const rows: SeparatedRow[] = [];
  let cells: string[] = [];
  let cell = '';
  let line = named ? 2 : 1;
  let begun = line;
  let quoted = false;
  const endCell = () => {
    cells.push(unguarded(cell.trim()));
    cell = '';
  };
  const endRow = () => {
    endCell();
    if (cells.some((c) => c !== '')) rows.push({ line: begun, cells });
    cells = [];
    begun = line;
  };
  for (let i = named?.[0].length ?? (text.charCodeAt(0) === 0xfeff ? 1 : 0); i < text.length; i++) {
    const c = text.charAt(i);
    if (c === '\n') line++;
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') {
        cell += '"';
        i++;
      } else quoted = false;
    } else if (c === '"' && cell.trim() === '') {
      quoted = true;
      cell = '';
    } else if (c === mark) {
      endCell();
    } else if (c === '\n' || (c === '\r' && text[i + 1] !== '\n')) endRow();
    else if (c !== '\r') cell += c;
  }
  if (quoted)
    return failed(
      'table/open-quotes',
      `line ${begun}`,
      `line ${begun}: a quotation mark is not closed. Put another one at the end of its cell.`,
    );
  endRow();
  return done(rows);
}

/** A cell as it stands between commas; what a spreadsheet would run has an apostrophe before it. */
export function csvCell(text: string): string {
  const cell = guarded(text);
  return /[",\n\r]/.test(cell) || cell !== cell.trim() ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** A cell in quotation marks, with what is before it. */
const QUOTED_CELL = /(^\ufeff?|[\t,;\r\n]) *"(?:[^"]|"")*"/g;

/** What the first row that is not empty has most of outside quotation marks; tab before semicolon before comma. */
function separatorOf(text: string): string {
  const first = /\S.*/.exec(text.replace(QUOTED_CELL, '$1x'))?.[0] ?? '';
  const count = (mark: string) => first.split(mark).length - 1;
  return ['\t', ';', ','].reduce((best, mark) => (count(mark) > count(best) ? mark : best), '\t');
}
