/** What a line says after its kind and its id: a value, then prepositions with their words. The same codecs read it and write it. */
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { shortened } from '../../../shared/quoted.ts';
import { exactQuantity } from '../../units/exact-quantity.ts';
import { parseQuantity } from '../../units/quantity.ts';
import { type TextToken, writeRest, writeWord } from './words.ts';

/** One field as words of a line. A refusal is a clause without its full stop, whose code is kept. */
export interface Codec<T> {
  /** the preposition before it; absent: the field's own name; '': it comes first, bare */
  readonly word?: string;
  readonly needed?: boolean;
  /** fewest and most words */
  readonly least: number;
  readonly most: number;
  read(words: readonly TextToken[]): Outcome<T>;
  /** `word`: a text as one word of the line */
  write(value: T, word: (text: string) => string): string;
}

/** Fields that a line may say, in the order in which they are written. */
export type Fields = Readonly<Record<string, Codec<unknown>>>;
type Value<C> = C extends Codec<infer T> ? T : never;
type Needed<F extends Fields> = { [N in keyof F]: F[N] extends { readonly needed: true } ? N : never }[keyof F];
/** What a line with these fields says. */
export type Said<F extends Fields> = { [N in Needed<F>]: Value<F[N]> } & { [N in Exclude<keyof F, Needed<F>>]?: Value<F[N]> | undefined };

/** A record that has no names of its own. */
export const record = <T>(): Record<string, T> => Object.create(null) as Record<string, T>;

/** A list that is there and empty. */
export const EMPTY_WORD = 'nothing';
/** The preposition of a spot, which begins with this sign and comes after `at`. */
const SPOT_SIGN = '@';

/** The words after kind and id; a refusal ends in the example. */
export function readClauses<F extends Fields>(tokens: readonly TextToken[], fields: F, example: string): Outcome<Said<F>> {
  const refuse = (code: Parameters<typeof failed>[0], says: string) => failed(code, '', `${says}; write for example: ${example}.`);
  const words = new Map(Object.entries(fields).map(([name, { word = name }]) => [word, name]));
  const isSpot = (token?: TextToken) => words.has(SPOT_SIGN) && !token?.quoted && token?.text.startsWith(SPOT_SIGN);
  const found = new Map<string, TextToken[]>([['', []]]);
  let open = '';
  for (const [i, token] of tokens.entries()) {
    if (!token.quoted && token.text === 'at' && isSpot(tokens[i + 1])) continue;
    const next = isSpot(token) ? SPOT_SIGN : token.text;
    if (token.quoted || !words.has(next)) {
      found.get(open)?.push(token);
      continue;
    }
    if (found.has(next)) return refuse('text/given-twice', `"${token.text}" is there twice`);
    open = next;
    found.set(open, open === SPOT_SIGN ? [token] : []);
  }
  if (!words.has('') && found.get('')?.length === 0) found.delete('');
  const said: Record<string, unknown> = {};
  for (const [word, args] of found) {
    const name = words.get(word) ?? '';
    const codec = fields[name];
    if (word === '' && args.length === 0 && !codec?.needed) continue;
    const [over] = args.slice(codec?.most ?? 0);
    if (over) return refuse('text/unexpected-word', `"${shortened(over.text)}" does not belong there`);
    if (args.length < (codec?.least ?? 0))
      return refuse('text/missing-word', word === '' ? 'the line is not complete' : `there is nothing after "${word}"`);
    const read = codec?.read(args) ?? done(undefined);
    if (!read.ok) return refuse(read.failure.code, read.failure.says);
    said[name] = read.value;
  }
  const missing = Object.keys(fields).find((name) => fields[name]?.needed && said[name] === undefined);
  return missing === undefined ? done(said as Said<F>) : refuse('text/missing-word', `"${fields[missing]?.word ?? missing}" is missing`);
}

/** The words of a line after its kind and id; what is undefined is left out. */
export function writeClauses<F extends Fields>(said: Said<F>, fields: F): string[] {
  const taken = new Set([EMPTY_WORD, ...Object.entries(fields).map(([name, { word = name }]) => word)]);
  return Object.entries(fields).flatMap(([name, codec]) => {
    const value = said[name as keyof Said<F>];
    if (value === undefined) return [];
    const { word = name } = codec;
    const written = codec.write(value, (text) => writeWord(text, taken.has(text)));
    return [word === SPOT_SIGN ? 'at' : word, written].filter((w) => w !== '');
  });
}

export const needed = <T>(codec: Codec<T>) => ({ ...codec, needed: true as const });
/** The field after a preposition that is not its name. */
export const following = <T>(word: string, codec: Codec<T>): Codec<T> => ({ ...codec, word });
/** The field that comes first, bare. */
export const value = <T>(codec: Codec<T>): Codec<T> => following('', codec);

const ONE = { least: 1, most: 1 } as const;
const SOME = { least: 1, most: Number.POSITIVE_INFINITY } as const;
const textOf = ([word]: readonly TextToken[]): string => word?.text ?? '';

/** One word. */
export const ONE_WORD: Codec<string> = { ...ONE, read: (words) => done(textOf(words)), write: (text, word) => word(text) };
/** One text, always in quotes. */
export const QUOTED: Codec<string> = { ...ONE_WORD, write: (text) => JSON.stringify(text) };
/** All of the line; bare `nothing` stands for no text. */
export const TEXTS: Codec<string[]> = {
  ...ONE,
  read: ([word]) => done(word && (word.quoted || word.text !== EMPTY_WORD) ? [word.text] : []),
  write: ([text]) => (text === EMPTY_WORD ? JSON.stringify(text) : writeRest(text ?? EMPTY_WORD)),
};
export const WORD_LIST: Codec<string[]> = {
  ...SOME,
  read: (words) => done(words.map((w) => w.text)),
  write: (texts, word) => texts.map(word).join(' '),
};
export const FLAG: Codec<true> = { least: 0, most: 0, read: () => done(true), write: () => '' };

/** One word that `read` understands; `what`: "a colour of three to ten small letters". */
export const form = <T>(what: string, read: (text: string) => T | undefined, write: (value: T) => string = String): Codec<T> => ({
  ...ONE,
  read(words) {
    const found = read(textOf(words));
    return found === undefined ? failed('text/bad-value', '', `"${shortened(textOf(words))}" is not ${what}`) : done(found);
  },
  write: (value, word) => word(write(value)),
});
export const pattern = (like: RegExp, what: string): Codec<string> => form(what, (text) => (like.test(text) ? text : undefined));
export const choice = <T extends string>(...words: readonly T[]): Codec<T> =>
  form(words.join(' or '), (text) => words.find((w) => w === text));
export const COUNT = form('a whole number', (text) => (/^\d+$/.test(text) ? Number(text) : undefined));

/** `@26,-22.4`: pitches to the right and down. */
export const SPOT: Codec<[number, number]> = {
  ...form('a spot of the bench, in pitches to the right and down such as @26,-22.4', (text) => {
    const [, x = 'none', y = 'none'] = /^@([+-]?[\d.e+-]+),([+-]?[\d.e+-]+)$/.exec(text) ?? [];
    const spot: [number, number] = [Number(x), Number(y)];
    return spot.every(Number.isFinite) ? spot : undefined;
  }),
  write: (spot) => `@${spot.map((n) => (Object.is(n, -0) ? '-0' : n)).join()}`,
};

/** A bare word is a quantity if it can be one, then true or false, else itself; in quotes it is a text. */
export const FIGURE: Codec<number | string | boolean> = {
  ...ONE,
  read([word]) {
    const { text = '', quoted = false } = word ?? {};
    const quantity = parseQuantity(text);
    if (quantity.ok && !quoted) return quantity;
    return done(quoted || !/^(true|false)$/.test(text) ? text : text === 'true');
  },
  write(value, word) {
    if (typeof value === 'number') return exactQuantity(value);
    const asWord = typeof value === 'boolean' || /^(true|false)$/.test(value) || parseQuantity(value).ok;
    return asWord ? JSON.stringify(value) : word(value);
  },
};

/** `volts 5, amps 500m`: names, each with one word; `empty` stands for none. */
export const pairs = <T>(figure: Codec<T>, name = ONE_WORD, empty: string = EMPTY_WORD): Codec<Record<string, T>> => ({
  ...SOME,
  read(words) {
    const all = record<T>();
    if (words.length === 1 && !words[0]?.quoted && words[0]?.text === empty) return done(all);
    for (let at = 0; at < words.length; at += 3) {
      const [first, second, comma] = words.slice(at, at + 3);
      if (!first || !second) return failed('text/missing-word', '', `there is nothing after "${shortened(words.at(-1)?.text ?? '')}"`);
      if (comma && (comma.quoted || comma.text !== ','))
        return failed('text/unexpected-word', '', `"${shortened(comma.text)}" does not belong there`);
      const [key, read] = [name.read([first]), figure.read([second])];
      if (!key.ok) return key;
      if (!read.ok) return read;
      if (Object.hasOwn(all, key.value)) return failed('text/given-twice', '', `"${shortened(key.value)}" is there twice`);
      all[key.value] = read.value;
    }
    return done(all);
  },
  write(all, word) {
    const said = Object.entries(all).map(([key, v]) => `${word(key)} ${figure.write(v, word)}`);
    return said.length === 0 ? empty : said.join(', ');
  },
});
