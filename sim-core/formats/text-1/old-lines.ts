/** Lines of version 1 of the text notation, such as `R1 resistor a30 -a25 ohms=4k7`, as lines of version 2; what neither knows stays as it is, to be refused. */
import { hex } from '../../units/hex.ts';
import { EMPTY_WORD, FIGURE } from '../text/clauses.ts';
import { writeWord } from '../text/words.ts';

/** Does the text begin with `bench-text 1`? */
export const isOldText = (lines: readonly string[]): boolean => /^\s*bench-text\s+1\b/.test(lines.find((l) => !/^\s*(#|$)/.test(l)) ?? '');

type Translate = (id: string, words: readonly string[]) => readonly string[];

/** Words stay in their quotes: `"vent"`, `at:"x"`. */
const WORD = /(?:[^\s"]|"(?:[^"\\]|\\.)*")+/g;
/** A hole or a terminal that could stand bare. */
const POINT = /^(?:[A-Za-z]\w*:)?[+-]?[a-j]\d+$|^[A-Za-z]\w*\.[^\s"]+$/;

const quoted = (word = ''): string => (word.startsWith('"') ? word : writeWord(word));
/** Even where it is no word of version 2: names of that version might be anything. */
const inQuotes = (word: string): string => (word.startsWith('"') ? word : JSON.stringify(word));
const orNothing = (word = ''): string => (word === 'none' ? EMPTY_WORD : word);

/** A figure bare only where it is a number or a truth value. */
function figure(word: string): string {
  const read = word === '' || word.startsWith('"') ? undefined : FIGURE.read([{ text: word, quoted: false }]);
  return read?.ok ? FIGURE.write(read.value, (text) => JSON.stringify(text)) : word;
}

const part =
  (kind: string): Translate =>
  (id, words) => {
    const places = ['at', 'to'];
    const figures: string[] = [];
    const rest = words.flatMap((word) => {
      const [, name, value = ''] = /^([a-zA-Z]+)=(.*)$/s.exec(word) ?? [];
      const [, which = '', point = ''] = /^(at|to):(".*")$/s.exec(word) ?? [];
      const [, cause, measured, limit, pins] = /^damaged:(\w+):([^/]+)\/([^/:]+)(?::(\S+))?$/.exec(word) ?? [];
      if (name !== undefined) figures.push(`${writeWord(name)} ${figure(value)}`);
      else if (word.startsWith('"')) return [`called ${word}`];
      else if (word.startsWith('@')) return [`at ${word}`];
      else if (which !== '') return [`${places.splice(places.indexOf(which), 1)} ${point}`];
      else if (word === 'turned') return ['rotated'];
      else if (word === 'plain') return [`with ${EMPTY_WORD}`];
      else if (POINT.test(word)) return [`${places.shift() ?? ''} ${word}`];
      else if (cause !== undefined)
        return [
          `damaged by ${cause} ${measured} over ${limit}${pins === undefined ? '' : ` pins ${pins.split(',').map(quoted).join(' ')}`}`,
        ];
      else if (word !== 'unturned') return [word];
      return [];
    });
    return [[inQuotes(kind), id, ...rest, ...(figures.length > 0 ? [`with ${figures.join(', ')}`] : [])].join(' ')];
  };

const board =
  (kind: string): Translate =>
  (id, words) => [[kind, id, ...words.map((w) => (w === 'split' ? 'split rails' : w))].join(' ')];

const wire: Translate = (id, [from, to, colour = '', ...more]) => [
  ['wire', id, colour, 'from', quoted(from), 'to', quoted(to), ...more].join(' '),
];

const meter: Translate = (id, words) => {
  let [measures, next] = ['volts', 'at'];
  const rest = words.flatMap((word) => {
    if (word === 'level') measures = word;
    else if (word === 'through') [measures, next] = ['amps', word];
    else if (word === 'against') next = word;
    else if (word.startsWith('@')) return [`tag ${word}`];
    else if (word.startsWith('"')) return [`called ${word}`];
    else if (/^(at|against):"/.test(word)) return [word.replace(':', ' ')];
    else return [`${next} ${quoted(word)}`];
    return [];
  });
  return [['meter', id, measures, ...rest].join(' ')];
};

const control: Translate = (id, words) => [`switch ${id} set ${orNothing(words.join(''))}`];

/** `000=FF00 +AA`: a piece after a + goes on where the last one ended; each line ends in a comma, and one that says nothing closes the piece before. */
function contents(): Translate {
  const ends = new Map<string, readonly [address: number, digits: number]>();
  return (id, words) => {
    const list = ['uncertain', 'charge', 'writes'].find((w) => w === words[0]);
    const line = list ? `cells ${id} ${list}` : `memory ${id}`;
    return words.slice(list ? 1 : 0).flatMap((word) => {
      const [, typed, piece = ''] = /^(\+|[^=]*=)(.*)$/.exec(word) ?? [];
      if (typed === undefined) return [`${line} ${word}`];
      const [next, width] = ends.get(line) ?? [0, 1];
      const address = typed === '+' ? hex(next, width) : typed.slice(0, -1);
      ends.set(line, [Number.parseInt(address, 16) + piece.length / (list === 'charge' ? 32 : 2), address.length]);
      if (list === 'writes') return [`${line} ${address} ${piece}`];
      return [...(typed === '+' ? [] : [`${line} ${list ? EMPTY_WORD : 'erased'}`]), `${line} ${address} ${piece},`];
    });
  };
}

function wanted([what = '', ...words]: readonly string[]): string {
  if (what === 'rows') return `wanted rows ${words.join(' ')}`;
  if (what === 'free') return `wanted dont-care ${words.map(orNothing).join(' ')}`;
  const [name = '', pin, ...more] = words;
  if (pin === undefined) return ['wanted', what, ...words].join(' ');
  return [`wanted ${what} ${inQuotes(name)} at ${pin}`, ...more.map((w) => w.replace(/^(lamp|led)=/, 'on '))].join(' ');
}

function proof([date = '', ...words]: readonly string[]): string {
  const said = words.map((w) =>
    w
      .replace(/^of=/, 'fingerprint ')
      .replace(/^(rows|by)=/, '$1 ')
      .replace(/^stood=(.*)$/, (_, s: string) => `switches ${s.replaceAll(':', ' ').replaceAll(',', ', ') || EMPTY_WORD}`),
  );
  return ['proof', date, ...said].join(' ');
}

/** A reader of lines, one after the other, each as none, one or several of version 2. */
export function oldLines(): (line: string) => readonly string[] {
  const inMemory = contents();
  const kinds = new Map<string, Translate>([
    ['board-63', board('board-63')],
    ['board-30', board('board-30')],
    ['lead', wire],
    ['wire', wire],
    ['meter', meter],
    ['hands', control],
    ['memory', inMemory],
    ['cells', (id, words) => (words[0] === EMPTY_WORD ? [`cells ${id}`] : inMemory(id, words))],
  ]);
  return (line) => {
    if (/^\s*(bench-text\b|#|$)/.test(line)) return [];
    if (/^\s*(title|note|wiring|outputs|wanted\s+rule)(\s|$)/.test(line)) return [line];
    const logic = /^\s*wanted\s+logic\s+(.*)$/s.exec(line)?.[1];
    if (logic !== undefined) return [`wanted expression ${orNothing(logic.trim())}`];
    const all = line.match(WORD) ?? [];
    const comment = all.findIndex((w) => w.startsWith('#'));
    const [first = '', second = '', ...words] = comment < 0 ? all : all.slice(0, comment);
    if (line.replace(WORD, '').includes('"') || second === '' || (first === 'cells' && second === EMPTY_WORD)) return [line];
    if (first === 'wanted') return [wanted([second, ...words])];
    if (first === 'proof') return [proof([second, ...words])];
    const id = first.replaceAll('"', '');
    return (kinds.get(second) ?? part(second))(id, words);
  };
}
