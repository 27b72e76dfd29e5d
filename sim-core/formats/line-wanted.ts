/** Lines of the wanted table: its inputs and outputs, rules in words, what it is computed from, its rows. Each answers with the place in the table that it fills. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanWanted } from '../../shared/plan.ts';

const PIN = /^[A-Za-z0-9_]+\.[A-Z0-9/]+$/;
const LED = /^led=([A-Za-z0-9_]+(?:\.[A-Za-z0-9]+)?)$/;
const HEX = /^[0-9A-Fa-f]{1,4}$/;

/** A list that is there and empty. */
export const NONE = 'none';

/** A rule in words, or a line that the table is computed from. */
export function readTableLine(list: 'rules' | 'expressions', said: string, quoted: boolean, wanted: PlanWanted): Outcome<string> {
  if (list === 'expressions') wanted.expressions ??= [];
  const texts = wanted[list] ?? [];
  if (list === 'expressions' && said === NONE && !quoted) return done(list);
  texts.push(said);
  return done(`${list}/${texts.length - 1}`);
}

export function readWanted(what: string, words: readonly string[], wanted: PlanWanted): Outcome<string> {
  switch (what) {
    case 'nothing':
      return done('nothing');
    case 'rows':
      return readRows(words, wanted.rows, 'rows');
    case 'free':
      wanted.dontCare ??= [];
      return words[0] === NONE ? done('free') : readRows(words, wanted.dontCare, 'free');
    case 'input':
    case 'output':
      return readLine(what, words, wanted);
  }
  return failed(
    '',
    `"${what}" cannot be wanted: write wanted input, wanted output, wanted rule, wanted logic, wanted rows, wanted free, or wanted nothing.`,
  );
}

function readLine(what: 'input' | 'output', [name, pin, ...more]: readonly string[], wanted: PlanWanted): Outcome<string> {
  const example = `write for example: wanted ${what} ${what === 'input' ? 'hot U1.A0' : 'vent U1.D0'}`;
  if (!name || !pin) return failed('', `the wanted ${what} needs a name and a pin; ${example}.`);
  if (!PIN.test(pin)) return failed('', `"${pin}" is no pin by its name; ${example}, and put a name of several words in quotes.`);
  let activeLow = false;
  let led: string | undefined;
  for (const word of more) {
    const shown = LED.exec(word)?.[1];
    if (what === 'output' && word === 'active-low') activeLow = true;
    else if (what === 'output' && shown !== undefined) led = shown;
    else
      return failed(
        '',
        `"${word}" is too much; ${example}${what === 'output' ? ', and after it "active-low", or the LED that shows it, such as LED=D3' : ''}.`,
      );
  }
  if (what === 'input') wanted.inputs.push({ name, pin });
  else wanted.outputs.push({ name, pin, ...(activeLow ? { activeLow } : {}), ...(led === undefined ? {} : { led }) });
  return done(`${what}s/${wanted[`${what}s`].length - 1}`);
}

/** Hexadecimal values, one a row; a number with a colon says which row comes next, for the eye, and has to be right. */
function readRows(words: readonly string[], rows: number[], list: string): Outcome<string> {
  for (const word of words) {
    const head = /^(\d+):$/.exec(word);
    if (head && Number(head[1]) !== rows.length)
      return failed('', `row ${head[1]} is announced where row ${rows.length} comes. Write the rows in order, and none twice.`);
    if (head) continue;
    if (!HEX.test(word)) return failed('', `"${word}" is no row: write the outputs as a hexadecimal number from 0 to FFFF, such as 8C.`);
    rows.push(Number.parseInt(word, 16));
  }
  return done(list);
}
