/** Rows and cells of a text from a spreadsheet: tabs, commas or semicolons between, quotation marks round what holds them (RFC 4180). */
import { done, failed, type Outcome } from '../../shared/outcome.ts';

export interface SeparatedRow {
  /** line on which the row begins, from 1 */
  readonly line: number;
  readonly cells: readonly string[];
}

/** Empty lines are left out; cells are trimmed. */
export function readSeparated(text: string): Outcome<readonly SeparatedRow[]> {
  const mark = separatorOf(text);
  const rows: SeparatedRow[] = [];
  let cells: string[] = [];
  let cell = '';
  let line = 1;
  let begun = 1;
  let quoted = false;
  const endRow = () => {
    cells.push(cell.trim());
    if (cells.some((c) => c !== '')) rows.push({ line: begun, cells });
    cells = [];
    cell = '';
    begun = line;
  };
  for (let i = text.charCodeAt(0) === 0xfeff ? 1 : 0; i < text.length; i++) {
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
      cells.push(cell.trim());
      cell = '';
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

/** A cell as it stands between commas. */
export const csvCell = (text: string): string => (/[",\n\r]/.test(text) || text !== text.trim() ? `"${text.replaceAll('"', '""')}"` : text);

/** A cell in quotation marks, with what is before it. */
const QUOTED_CELL = /(^\ufeff?|[\t,;\r\n]) *"(?:[^"]|"")*"/g;

/** What the first row that is not empty has most of outside quotation marks; tab before semicolon before comma. */
function separatorOf(text: string): string {
  const first = /\S.*/.exec(text.replace(QUOTED_CELL, '$1x'))?.[0] ?? '';
  const count = (mark: string) => first.split(mark).length - 1;
  return ['\t', ';', ','].reduce((best, mark) => (count(mark) > count(best) ? mark : best), '\t');
}
