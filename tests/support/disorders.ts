/** Ways to spoil the contents of a memory, as plain loops over bytes and pins: what is recognised is compared with what was done, by nothing but its effect. */

/** A memory's words by address, all bits given. */
export type Contents = readonly number[];
export type Spoil = (words: Contents) => number[];

/** What chance gives: whole numbers from 0 up to, not including, n. */
export type Draw = (n: number) => number;

/** A chip with so many address and data pins, of which the table uses so many inputs, A0 first. */
export interface ChipSize {
  readonly pins: number;
  readonly inputs: number;
  readonly outputs: number;
  /** data pins, those included that carry no output */
  readonly width: number;
}

export const range = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
const bit = (word: number, i: number): number => (word >> i) & 1;

/** Each word from another address. */
const readAt =
  (from: (address: number) => number): Spoil =>
  (words) =>
    words.map((_, x) => words[from(x)]!);
const eachWord =
  (to: (word: number) => number): Spoil =>
  (words) =>
    words.map(to);

/** The level of pin i goes to pin order[i]. */
const moved = (word: number, order: readonly number[]): number => order.reduce((sum, to, i) => sum + bit(word, i) * 2 ** to, 0);
/** Pins of an address as they must be for the level of pin i to be found on pin order[i]. */
const unmoved = (word: number, order: readonly number[]): number => order.reduce((sum, to, i) => sum + bit(word, to) * 2 ** i, 0);
const onAddress = (order: readonly number[]): Spoil => readAt((x) => unmoved(x, order));
/** Pins beyond the order stay. */
const onData = (order: readonly number[]): Spoil => eachWord((w) => moved(w % 2 ** order.length, order) + w - (w % 2 ** order.length));

const held = (word: number, pin: number, level: number): number => word - bit(word, pin) * 2 ** pin + level * 2 ** pin;
const joined = (word: number, a: number, b: number, and: boolean): number => {
  const level = and ? bit(word, a) & bit(word, b) : bit(word, a) | bit(word, b);
  return held(held(word, a, level), b, level);
};

function shuffled(n: number, draw: Draw): number[] {
  const order = range(n);
  for (let i = n - 1; i > 0; i--) {
    const k = draw(i + 1);
    [order[i], order[k]] = [order[k]!, order[i]!];
  }
  return order;
}

function two(n: number, draw: Draw): [number, number] {
  const a = draw(n);
  return [a, (a + 1 + draw(n - 1)) % n];
}

/** Orders of the first n of all pins. */
const swapped = (n: number, draw: Draw): number[] => {
  const [a, b] = two(n, draw);
  return range(n).map((i) => (i === a ? b : i === b ? a : i));
};
const reversed = (n: number): number[] => range(n).reverse();
const runReversed = (n: number, draw: Draw): number[] => {
  const [a, b] = two(n, draw).sort((p, q) => p - q) as [number, number];
  return range(n).map((i) => (i >= a && i <= b ? a + b - i : i));
};
const rotated = (n: number, draw: Draw): number[] => {
  const by = 1 + draw(n - 1);
  return range(n).map((i) => (i + by) % n);
};
const all = (order: readonly number[], pins: number): number[] => range(pins).map((i) => order[i] ?? i);

export interface DisorderKind {
  readonly kind: string;
  /** undefined where the chip has too few pins for it */
  make(chip: ChipSize, draw: Draw): Spoil | undefined;
  /** is nothing seen of a part of it on these words? */
  hides?(spoil: Spoil, words: Contents, same: (a: Contents, b: Contents) => boolean): boolean;
}

const data = (kind: string, order: (n: number, draw: Draw) => number[]): DisorderKind => ({
  kind: `data ${kind}`,
  make: ({ outputs }, draw) => (outputs < 2 ? undefined : onData(order(outputs, draw))),
});
const address = (kind: string, order: (n: number, draw: Draw) => number[]): DisorderKind => ({
  kind: `address ${kind}`,
  make: ({ inputs, pins }, draw) => onAddress(all(order(inputs, draw), pins)),
});

const SINGLE: readonly DisorderKind[] = [
  data('two swapped', swapped),
  { kind: 'data all reversed', make: ({ width }) => (width < 2 ? undefined : onData(reversed(width))) },
  data('a run reversed', runReversed),
  data('rotated', rotated),
  data('in any order', shuffled),
  {
    kind: 'data one inverted',
    make: ({ outputs }, draw) => {
      const pin = 2 ** draw(outputs);
      return eachWord((w) => w ^ pin);
    },
  },
  { kind: 'data all inverted', make: ({ width }) => eachWord((w) => w ^ (2 ** width - 1)) },
  {
    kind: 'data one stuck',
    make: ({ outputs }, draw) => {
      const [pin, level] = [draw(outputs), draw(2)];
      return eachWord((w) => held(w, pin, level));
    },
  },
  {
    kind: 'data some stuck',
    make: ({ outputs }, draw) => {
      const lines = range(outputs)
        .filter(() => draw(2) === 1)
        .map((pin) => [pin, draw(2)] as const);
      return eachWord((w) => lines.reduce((word, [pin, level]) => held(word, pin, level), w));
    },
  },
  {
    kind: 'data shorted, low wins',
    make: ({ outputs }, draw) => {
      if (outputs < 2) return undefined;
      const [a, b] = two(outputs, draw);
      return eachWord((w) => joined(w, a, b, true));
    },
  },
  {
    kind: 'data shorted, high wins',
    make: ({ outputs }, draw) => {
      if (outputs < 2) return undefined;
      const [a, b] = two(outputs, draw);
      return eachWord((w) => joined(w, a, b, false));
    },
  },
  address('two swapped', swapped),
  address('all reversed', reversed),
  address('a run reversed', runReversed),
  address('rotated', rotated),
  address('in any order', shuffled),
  { kind: 'address mirrored over the chip', make: ({ pins }) => onAddress(reversed(pins)) },
  {
    kind: 'address one inverted',
    make: ({ inputs }, draw) => {
      const pin = 2 ** draw(inputs);
      return readAt((x) => x ^ pin);
    },
  },
  { kind: 'address all inverted', make: ({ inputs }) => readAt((x) => x ^ (2 ** inputs - 1)) },
  {
    kind: 'address one stuck',
    make: ({ inputs }, draw) => {
      const [pin, level] = [draw(inputs), draw(2)];
      return readAt((x) => held(x, pin, level));
    },
  },
  {
    kind: 'address shorted, low wins',
    make: ({ inputs }, draw) => {
      const [a, b] = two(inputs, draw);
      return readAt((x) => joined(x, a, b, true));
    },
  },
  {
    kind: 'address shorted, high wins',
    make: ({ inputs }, draw) => {
      const [a, b] = two(inputs, draw);
      return readAt((x) => joined(x, a, b, false));
    },
  },
  {
    kind: 'shifted',
    make: ({ pins }, draw) => {
      const by = 1 + draw(2 ** pins - 1);
      return (words) => words.map((_, x) => words[(x - by + words.length) % words.length]!);
    },
  },
  { kind: 'the other half', make: ({ pins }) => readAt((x) => x ^ (2 ** (pins - 1))) },
  {
    kind: 'half erased',
    make: ({ inputs, width }, draw) => {
      const [pin, level] = [inputs - 1, draw(2)];
      return (words) => words.map((w, x) => (bit(x, pin) === level ? 2 ** width - 1 : w));
    },
  },
];

/** What two do alone, by what they do together. */
const PARTS = new WeakMap<Spoil, readonly Spoil[]>();

/** Two of them, one after the other. */
const combined: DisorderKind = {
  kind: 'two combined',
  make(chip, draw) {
    const [first, second] = [0, 1].map(() => SINGLE[draw(SINGLE.length)]?.make(chip, draw));
    if (!first || !second) return undefined;
    const both: Spoil = (words) => second(first(words));
    PARTS.set(both, [first, second]);
    return both;
  },
  hides: (both, words, same) => (PARTS.get(both) ?? []).some((one) => same(one(words), both(words))),
};

/** Nothing but single bits. */
const none: DisorderKind = { kind: 'single bits', make: () => (words) => [...words] };

export const DISORDER_KINDS: readonly DisorderKind[] = [...SINGLE, combined, none];
