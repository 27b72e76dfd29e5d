/**
 * Benches as text that a person types: one thing a line, its id first. Read by tests, by each rule's examples, and from a file.
 *
 *   title Greenhouse watch
 *   B1 board-63 split
 *   PS1 bench-supply volts=5
 *   U1 eeprom-2kx8 d12 turned
 *   R1 resistor a30 -a30 ohms=4k7 "vent's"
 *   W1 lead PS1.+ +j1 red
 *   U1 memory 000=FF00C3
 *   S1 hands 10110
 *   note what a person wants to say
 */
import type { Plan, PlanBoard, PlanLead, PlanPart } from '../../shared/plan.ts';
import { done, failed, type Outcome } from '../outcome.ts';
import { parseQuantity } from '../units/quantity.ts';

const WORDS = /"([^"]*)"|(\S+)/g;
const POINT = /^(?:[A-Za-z]\w*:)?[+-]?[a-j]\d+$|^[A-Za-z]\w*\.\S+$/;

/** Boards without a place of their own stand below each other, this many pitches apart. */
const BOARD_STEP = 21;

/** Reads a whole text; the first line that cannot be read is named. Nothing is checked here that the plan's schema or the bench checks. */
export function readBenchText(text: string): Outcome<Plan> {
  let title = 'A bench';
  const boards: PlanBoard[] = [];
  const parts: PlanPart[] = [];
  const leads: PlanLead[] = [];
  const memories: Plan['memories'] = {};
  const hands: Plan['hands'] = {};
  const notes: string[] = [];

  for (const [i, line] of text.split('\n').entries()) {
    const bare = line.replace(/(^|\s)#.*$/, '').trim();
    if (bare === '') continue;
    const at = `line ${i + 1}`;
    const words = [...bare.matchAll(WORDS)].map((m) => ({ quoted: m[1] !== undefined, text: m[1] ?? m[2] ?? '' }));
    const [id = '', kind = '', ...rest] = words.map((w) => w.text);
    if (id === 'title' || id === 'note') {
      const said = bare.slice(id.length).trim();
      if (id === 'title') title = said;
      else notes.push(said);
      continue;
    }
    if (kind === '') return failed(at, `${at} says only "${id}". Write an id, then what it is: R1 resistor a3 a7 ohms=330.`);
    if (kind === 'board-63' || kind === 'board-30') {
      boards.push({ id, kind, spot: [0, boards.length * BOARD_STEP], splitRails: rest.includes('split') });
    } else if (kind === 'lead') {
      const [from, to, colour = 'green'] = rest;
      if (from === undefined || to === undefined) return failed(at, `${at}: lead ${id} needs two ends, such as "${id} lead a3 b17 green".`);
      leads.push({ id, from, to, colour });
    } else if (kind === 'memory') {
      for (const row of rest) {
        const [address, bytes] = row.split('=');
        if (!address || !bytes) return failed(at, `${at}: "${row}" is not contents; write an address and bytes such as 00A=FF00.`);
        memories[id] = { ...memories[id], [address]: bytes };
      }
    } else if (kind === 'hands') {
      const closed = rest.join('');
      if (!/^[01]+$/.test(closed)) return failed(at, `${at}: "${closed}" is not where switches stand; write one 0 or 1 a pole.`);
      hands[id] = [...closed].map((c) => c === '1');
    } else {
      const part = readPart(id, kind, words.slice(2), at);
      if (!part.ok) return part;
      parts.push(part.value);
    }
  }
  return done({ format: 'lampwright-plan', version: 1, title, boards, parts, leads, memories, meters: [], notes, hands });
}

function readPart(id: string, kind: string, words: readonly { quoted: boolean; text: string }[], at: string): Outcome<PlanPart> {
  const points: string[] = [];
  const params: Record<string, number | string> = {};
  let turn: 180 | undefined;
  let label: string | undefined;
  for (const { quoted, text } of words) {
    const pair = quoted ? null : /^([a-z][A-Za-z]*)=(.+)$/.exec(text);
    if (quoted) label = text;
    else if (pair) {
      const quantity = parseQuantity(pair[2] ?? '');
      params[pair[1] ?? ''] = quantity.ok ? quantity.value : (pair[2] ?? '');
    } else if (text === 'turned') turn = 180;
    else if (POINT.test(text) && points.length < 2) points.push(text);
    else return failed(at, `${at}: "${text}" is neither a tie point, nor a figure such as ohms=330, nor "turned", nor a label in quotes.`);
  }
  const [first, second] = points;
  return done({
    id,
    kind,
    ...(first === undefined ? {} : { at: first }),
    ...(second === undefined ? {} : { to: second }),
    ...(turn ? { turn } : {}),
    ...(Object.keys(params).length > 0 ? { params } : {}),
    ...(label === undefined ? {} : { label }),
  });
}
