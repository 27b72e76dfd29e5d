/** Text from a spreadsheet into the table: a block of cells at the cursor, rows under a heading of known names, or a whole table of other names. */
import type { PlanWanted } from '../../../shared/plan.ts';
import {
  type Cell,
  type CellChange,
  done,
  failed,
  grouped,
  headingOf,
  type Outcome,
  readCellBlock,
  readTableText,
  tableOfWanted,
  wantedOfTable,
  withWantedCells,
} from '../../../sim-core/index.ts';
import { linesFor, type PinChoice } from './pins.ts';

const tooLarge = (says: string): Outcome<PlanWanted> => failed('table/does-not-fit', 'line 1', says);

/** row, output: where a block without a heading begins; it goes down, and right to lesser outputs. */
export function takeText(
  wanted: PlanWanted,
  text: string,
  at: { readonly row: number; readonly output: number },
  pins: PinChoice,
): Outcome<PlanWanted> {
  const block = readCellBlock(text);
  if (block) return takeBlock(wanted, block, at);
  const table = tableOfWanted(wanted);
  if (!table.ok) return table;
  const known = readTableText(text, table.value);
  if (known.ok) return done(wantedOfTable(wanted, known.value));
  // a heading with all inputs of this table was meant for it, and so was one that names nothing else
  const heading = headingOf(text).filter((n) => n !== '');
  const { inputs: own, outputs: shown } = table.value;
  if (own.every((n) => heading.includes(n)) || (heading.length > 0 && heading.every((n) => own.includes(n) || shown.includes(n))))
    return known;
  const fresh = readTableText(text);
  if (!fresh.ok) return fresh;
  const { inputs, outputs } = fresh.value;
  const lines = linesFor({ inputs, outputs }, wanted, pins);
  if (!lines)
    return tooLarge(
      `This table has ${inputs.length} inputs and ${outputs.length} outputs, and the bench's memories have ${pins.inputs.length} address and ${pins.outputs.length} data pins. Place a larger memory, or one more, on the bench.`,
    );
  const { expressions: _, ...rest } = wanted;
  return done(wantedOfTable({ ...rest, rules: [], ...lines }, fresh.value));
}

function takeBlock(
  wanted: PlanWanted,
  block: readonly (readonly Cell[])[],
  at: { readonly row: number; readonly output: number },
): Outcome<PlanWanted> {
  const wide = Math.max(...block.map((l) => l.length));
  const rows = wanted.rows.length - at.row;
  if (wide > at.output + 1)
    return tooLarge(
      `The block is ${wide} cells wide, and from here ${at.output + 1} fit. Start further to the left, or paste with a heading of names.`,
    );
  if (block.length > rows)
    return tooLarge(`The block has ${grouped(block.length)} rows, and from row ${at.row} on there are ${grouped(rows)}. Start higher up.`);
  const changes: CellChange[] = block.flatMap((cells, r) => cells.map((cell, c) => ({ row: at.row + r, output: at.output - c, cell })));
  return withWantedCells(wanted, changes);
}
