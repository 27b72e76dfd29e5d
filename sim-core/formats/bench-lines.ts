/** What each kind of line in a bench's text says, and how it gets into the plan. Every refusal is a sentence with what stands there and the cure. */

import type { Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanCells, PlanMeter, PlanPart, PlanProof, PlanWanted, PlanWire } from '../../shared/plan.ts';
import { readRest, type TextToken, wordsOf } from './bench-words.ts';
import { type CellDraft, NO_BYTES, readCellLine, readContents, readHands } from './line-contents.ts';
import { readMeter } from './line-meter.ts';
import { readPart, readSpot } from './line-part.ts';
import { readProof } from './line-proof.ts';
import { readTableLine, readWanted } from './line-wanted.ts';

/** The plan while it is read. */
export interface PlanLines {
  line: number;
  title: string | undefined;
  wiring: Plan['wiring'];
  outputs: Plan['outputs'];
  readonly boards: PlanBoard[];
  readonly parts: PlanPart[];
  readonly wires: PlanWire[];
  readonly memories: Map<string, Map<string, string>>;
  cells: Map<string, CellDraft> | undefined;
  readonly switches: Map<string, boolean[]>;
  readonly meters: PlanMeter[];
  readonly notes: string[];
  wanted: PlanWanted | undefined;
  proof: PlanProof | undefined;
  /** place in the plan → line */
  readonly lines: Map<string, number>;
}

/** undefined: the line is in the plan; else what is amiss with it */
type Problem = string | undefined;

/** The newest version of the notation that this program can read. */
const NEWEST = 1;
const ID = /^[A-Za-z][A-Za-z0-9_]{0,15}$/;
const COLOUR = /^[a-z]{3,10}$/;

/** Boards without a place of their own stand below each other, this many pitches apart. */
const BOARD_STEP = 21;

/** The first words of lines that begin with no id, and what an id may be followed by instead of a part's kind. */
export const FIRST_WORDS = ['title', 'note', 'wanted', 'cells', 'wiring', 'outputs', 'proof'];
export const SECOND_WORDS = ['board-63', 'board-30', 'wire', 'memory', 'cells', 'hands', 'meter'];

export const newSheet = (): PlanLines => ({
  line: 0,
  title: undefined,
  wiring: undefined,
  outputs: undefined,
  boards: [],
  parts: [],
  wires: [],
  memories: new Map(),
  cells: undefined,
  switches: new Map(),
  meters: [],
  notes: [],
  wanted: undefined,
  proof: undefined,
  lines: new Map(),
});

/** In the order of the plan's schema, whatever the order of the lines. */
const inOrder = ({ inputs, outputs, rules, rows, dontCare: free, expressions }: PlanWanted): PlanWanted => ({
  inputs,
  outputs,
  rules,
  rows,
  ...(free ? { dontCare: free } : {}),
  ...(expressions ? { expressions } : {}),
});

const cellState = ({ uncertain, charge, writes }: CellDraft): PlanCells => ({
  ...(uncertain ? { uncertain: Object.fromEntries(uncertain) } : {}),
  ...(charge ? { charge: Object.fromEntries(charge) } : {}),
  ...(writes ? { writes: Object.fromEntries(writes) } : {}),
});

export function finishPlan(s: PlanLines): Plan {
  return {
    format: 'lampwright-plan',
    version: 2,
    title: s.title ?? 'A bench',
    boards: s.boards,
    parts: s.parts,
    wires: s.wires,
    memories: Object.fromEntries([...s.memories].map(([id, image]) => [id, Object.fromEntries(image)])),
    ...(s.cells ? { cells: Object.fromEntries([...s.cells].map(([id, state]) => [id, cellState(state)])) } : {}),
    ...(s.wanted ? { wanted: inOrder(s.wanted) } : {}),
    ...(s.proof ? { proof: s.proof } : {}),
    meters: s.meters,
    notes: s.notes,
    switches: Object.fromEntries(s.switches),
    ...(s.wiring ? { wiring: s.wiring } : {}),
    ...(s.outputs ? { outputs: s.outputs } : {}),
  };
}

export function readPlanLine(line: string, s: PlanLines): Problem {
  const free = /^\s*(title|note|wanted\s+(?:rule|logic))(?:\s+(.*))?$/s.exec(line);
  if (free) return readFree((free[1] ?? '').replace(/^wanted\s+/, ''), free[2] ?? '', s);
  const words = wordsOf(line);
  if (!words.ok) return words.failure.says;
  const [first, second, ...rest] = words.value;
  if (!first) return undefined;
  if (first.bare === 'bench-text') return readVersion(second);
  if (first.bare === 'wanted') return readTable(second, rest, s);
  if (first.bare === 'proof') return takeProof(second ? [second, ...rest] : [], s);
  if (first.bare === 'wiring') return readWiring(second?.text ?? '', s);
  if (first.bare === 'outputs') return readOutputs(second?.text ?? '', s);
  if (first.bare === 'cells' && second?.text === NO_BYTES) {
    s.cells ??= new Map();
    return undefined;
  }
  const id = first.quoted !== undefined && first.bare === '' ? first.quoted : first.bare;
  if (!ID.test(id) || (first.quoted !== undefined && first.bare !== ''))
    return `${first.text} cannot be an id: write a letter first, then letters, digits or _, 16 at most, such as R1.`;
  if (!second) return `there is only "${id}". Write an id, then what it is: R1 resistor a3 a7 ohms=330.`;
  switch (second.quoted === undefined ? second.bare : '') {
    case 'board-63':
    case 'board-30':
      return readBoard(id, second.bare as PlanBoard['kind'], rest, s);
    case 'wire':
      return readWire(id, rest, s);
    case 'memory':
      return once(s, `memories/${id}`, '', true) ?? readContents(id, rest, s.memories);
    case 'cells':
      s.cells ??= new Map();
      return once(s, `cells/${id}`, '', true) ?? readCellLine(id, rest, s.cells);
    case 'hands':
      return once(s, `hands/${id}`, `where ${id} stands`) ?? readHands(id, rest, s.switches);
    case 'meter':
      return takeMeter(id, rest, s);
  }
  const part = readPart(id, second, rest);
  if (!part.ok) return part.failure.says;
  s.lines.set(`parts/${s.parts.length}`, s.line);
  s.parts.push(part.value);
  return undefined;
}

/** Notes down where a thing stands that may stand only once. */
function once(s: PlanLines, path: string, what: string, again = false): Problem {
  const before = s.lines.get(path);
  if (before !== undefined && !again) return `${what} is written in line ${before} already. Take one of the two lines out.`;
  if (before === undefined) s.lines.set(path, s.line);
  return undefined;
}

function readFree(what: string, rest: string, s: PlanLines): Problem {
  const said = readRest(rest);
  if (!said.ok) return said.failure.says;
  const quoted = rest.trim().startsWith('"');
  if (said.value === '' && !quoted) return `there is nothing after "${what}". Write the text behind it, or take the line out.`;
  if (what === 'title') {
    const twice = once(s, 'title', 'the title');
    if (twice === undefined) s.title = said.value;
    return twice;
  }
  if (what === 'note') {
    s.lines.set(`notes/${s.notes.length}`, s.line);
    s.notes.push(said.value);
    return undefined;
  }
  return noteWanted(s, readTableLine(what === 'rule' ? 'rules' : 'expressions', said.value, quoted, wantedOf(s)));
}

const wantedOf = (s: PlanLines): PlanWanted => {
  s.wanted ??= { inputs: [], outputs: [], rules: [], rows: [] };
  if (!s.lines.has('wanted')) s.lines.set('wanted', s.line);
  return s.wanted;
};

function readTable(what: TextToken | undefined, rest: readonly TextToken[], s: PlanLines): Problem {
  return noteWanted(s, readWanted(what?.text ?? '', rest.map(plainText), wantedOf(s)));
}

/** Where a line of the table was written, unless it could not be read. */
function noteWanted(s: PlanLines, read: Outcome<string>): Problem {
  if (!read.ok) return read.failure.says;
  s.lines.set(`wanted/${read.value}`, s.line);
  return undefined;
}

function readVersion(word: TextToken | undefined): Problem {
  const version = Number(word?.bare);
  if (!Number.isInteger(version) || version < 1) return `"${word?.text ?? ''}" is no version of the text form. Write bench-text ${NEWEST}.`;
  if (version > NEWEST)
    return `the text is version ${version}, newer than the version ${NEWEST} that this Lampwright knows. Open it with a newer Lampwright.`;
  return undefined;
}

function takeProof(words: readonly TextToken[], s: PlanLines): Problem {
  const read = readProof(words);
  if (!read.ok) return read.failure.says;
  const twice = once(s, 'proof', 'the proof');
  if (twice === undefined) s.proof = read.value;
  return twice;
}

function readWiring(which: string, s: PlanLines): Problem {
  if (which !== 'real' && which !== 'ideal')
    return `wiring is "${which}": write "wiring real" for wires and rails with resistance, or take the line out.`;
  const twice = once(s, 'wiring', 'the wiring');
  if (twice === undefined) s.wiring = which === 'real' ? which : undefined;
  return twice;
}

function readOutputs(which: string, s: PlanLines): Problem {
  if (which !== 'guaranteed' && which !== 'typical')
    return `outputs is "${which}": write "outputs guaranteed" for outputs that give no more than their sheets promise, or take the line out.`;
  const twice = once(s, 'outputs', 'what outputs give');
  if (twice === undefined) s.outputs = which === 'guaranteed' ? which : undefined;
  return twice;
}

function readBoard(id: string, kind: PlanBoard['kind'], rest: readonly TextToken[], s: PlanLines): Problem {
  let spot: [number, number] | undefined;
  let splitRails = false;
  for (const { bare, text } of rest) {
    const read = bare.startsWith('@') ? readSpot(text) : undefined;
    if (read && !read.ok) return read.failure.says;
    if (read) spot = read.value;
    else if (text === 'split') splitRails = true;
    else return `"${text}" says nothing of a board. Write where it stands, such as @0,21, and "split" if its rails are cut in the middle.`;
  }
  s.lines.set(`boards/${s.boards.length}`, s.line);
  s.boards.push({ id, kind, spot: spot ?? [0, s.boards.length * BOARD_STEP], splitRails });
  return undefined;
}

const plainText = (w: TextToken): string => (w.bare === '' ? (w.quoted ?? '') : w.text);

function readWire(id: string, rest: readonly TextToken[], s: PlanLines): Problem {
  const [from, to, colour = 'green', more] = rest.map(plainText);
  const example = `write for example: ${id} wire a3 b17 green`;
  if (from === undefined || to === undefined) return `wire ${id} needs two ends; ${example}.`;
  if (!COLOUR.test(colour)) return `"${colour}" is no colour: use three to ten small letters such as red; ${example}.`;
  if (more !== undefined) return `"${more}" is too much for wire ${id}; ${example}.`;
  s.lines.set(`wires/${s.wires.length}`, s.line);
  s.wires.push({ id, from, to, colour });
  return undefined;
}

function takeMeter(id: string, rest: readonly TextToken[], s: PlanLines): Problem {
  const meter = readMeter(id, rest);
  if (!meter.ok) return meter.failure.says;
  s.lines.set(`meters/${s.meters.length}`, s.line);
  s.meters.push(meter.value);
  return undefined;
}
