/** The parts on offer and their search: by name and synonym, value, function, pin count and organisation, so that "4k7 resistor" is a resistor of 4.7 kΩ, ready to place. */
import { PARTS, type PartKind, type Placing, parseQuantity, siFormat } from '../../sim-core/index.ts';

export interface PartOffer {
  readonly kind: PartKind;
  /** what is placed */
  readonly placing: Placing;
  readonly title: string;
  /** '4.7 kΩ', '24 pins' */
  readonly note: string;
  /** every word that was typed is one of its names or values, not only a beginning of one */
  readonly named: boolean;
}

export interface PartGroup {
  readonly head: string;
  readonly offers: readonly PartOffer[];
}

/** What parts do, in the order in which a bench grows. */
const HEADS: ReadonlyArray<readonly [group: PartKind['group'], head: string]> = [
  ['supply', 'Power'],
  ['memory', 'Memories'],
  ['switch', 'Switches and buttons'],
  ['led', 'LEDs and displays'],
  ['passive', 'Resistors, capacitors, diodes'],
  ['logic', 'Logic, drivers and clocks'],
];
/** More words that people look for. */
const ALSO: Readonly<Record<PartKind['group'], string>> = {
  supply: 'power source volts plus minus',
  memory: 'memory rom storage chip ic',
  switch: 'switch input key',
  led: 'led light display output indicator',
  passive: 'passive',
  logic: 'logic chip ic',
};

/** All parts that a search finds, by what they do; parts and groups whose own names fit it best come first. */
export function partGroups(search: string): readonly PartGroup[] {
  const words = tidy(search).split(' ').filter(Boolean);
  return HEADS.flatMap(([group, head]) => {
    const found = PARTS.filter((k) => k.group === group)
      .flatMap((kind) => offer(kind, words) ?? [])
      .map((offer) => ({ offer, fit: fitOf(offer.kind, words) - unusual(offer) }))
      .sort((a, b) => b.fit - a.fit);
    return found[0] ? [{ fit: found[0].fit, group: { head, offers: found.map((f) => f.offer) } }] : [];
  })
    .sort((a, b) => b.fit - a.fit)
    .map((g) => g.group);
}

/** What pins are called, whatever name the data sheet prints. */
const PIN_NAMES: ReadonlyArray<readonly [pin: RegExp, called: string]> = [
  [/^\/?(?:CE|CS|E)\d*$/, 'chip-select chip-enable'],
  [/^\/?(?:OE|\dG|\dOE)\d*$/, 'output-enable'],
  [/^\/?WE$/, 'write-enable'],
];

/** How many of the words are among the part's own names: its title and its synonyms. */
function fitOf(kind: PartKind, words: readonly string[]): number {
  const names = new Set(namesOf(kind).split(/[\s,/]+/));
  return words.filter((w) => names.has(w)).length;
}

/** A value further than this from what the part usually has is hardly meant [decades]: "100n" is a capacitor's, and no resistor's. */
const USUAL = 6;

/** Less than one name counts. */
function unusual({ kind, placing }: PartOffer): number {
  const far = kind.params.some((p) => {
    const given = placing.params?.[p.name];
    return (
      p.type === 'number' && typeof given === 'number' && given > 0 && p.fallback > 0 && Math.abs(Math.log10(given / p.fallback)) > USUAL
    );
  });
  return far ? 0.5 : 0;
}

const namesOf = (kind: PartKind): string => [kind.title, ...(kind.synonyms ?? [])].join(', ').toLowerCase().replaceAll(' × ', '×');

/** "2k x 8" is one word, "20 pin" and "20-pin" are "20-pin"; what an enable is called is one word. */
const tidy = (search: string): string =>
  search
    .toLowerCase()
    .replace(/(\d+)\s*k?\s*[x×*]\s*(\d+)/g, (m) => m.replace(/\s/g, '').replace(/[x*]/, '×'))
    .replace(/(\d+)[\s-]*pins?\b/g, '$1-pin')
    .replace(/(\d+)[\s-]*seg(?:ment)?s?\b/g, '$1-segment')
    .replace(/\b(chip|output|write)\s+(select|enable)\b/g, '$1-$2')
    .replace(/(\d)\s+(?=(?:[pnuµmkg]?(?:ω|ohms?|f|hz|v)|[pnuµkm])(?:\s|$))/g, '$1')
    .trim();

/** The kind with the values that the words ask for; undefined if a word does not fit it. */
function offer(kind: PartKind, words: readonly string[]): PartOffer | undefined {
  const params: Record<string, number | string> = {};
  for (const word of words) {
    const given = valueIn(kind, word);
    if (given) Object.assign(params, given);
    else if (!describes(kind, { ...defaults(kind), ...params }, word)) return undefined;
  }
  const all = { ...defaults(kind), ...params };
  const pins = kind.pins(all).length;
  const value = kind.value?.(all) ?? '';
  return {
    kind,
    title: kind.title,
    note: [value, pins > 2 && !kind.title.includes('-pin') ? `${pins} pins` : ''].filter(Boolean).join(', '),
    named: fitOf(kind, words) + Object.keys(params).length >= words.length,
    placing: { kind: kind.id, ...(Object.keys(params).length > 0 ? { params } : {}) },
  };
}

const defaults = (kind: PartKind) => Object.fromEntries(kind.params.map((p) => [p.name, p.fallback]));

/** A word that is a value of this kind: its first figure if that has a unit, a choice, or so many poles of a switch. */
function valueIn(kind: PartKind, word: string): Record<string, number | string> | undefined {
  for (const p of kind.params) {
    if (p.type === 'choice') {
      if (p.choices.includes(word)) return { [p.name]: word };
    } else if (
      p.type === 'number' &&
      p === kind.params[0] &&
      (p.unit !== '' || kind.group === 'switch') &&
      /\d/.test(word) &&
      !word.includes('-') &&
      !word.includes('×')
    ) {
      // values are typed in small letters: "1m" on a resistor can only be a million
      const texts =
        p.unit === 'Ω'
          ? [
              word
                .replace(/m$/, 'M')
                .replace(/m(?=\d)/, 'M')
                .replace(/r(?=\d*$)/, 'R'),
              word,
            ]
          : [word, word.replace(/hz$/, 'Hz').replace(/f$/, 'F')];
      for (const text of texts) {
        const read = parseQuantity(text, p.unit || undefined);
        if (read.ok && read.value >= p.least && read.value <= p.most && !(p.whole && !Number.isInteger(read.value)))
          return { [p.name]: read.value };
      }
    }
  }
  return undefined;
}

function describes(kind: PartKind, params: Record<string, number | string>, word: string): boolean {
  const pins = kind.pins(params);
  const text = [
    namesOf(kind),
    kind.id,
    ALSO[kind.group],
    HEADS.find(([g]) => g === kind.group)?.[1],
    `${pins.length}-pin`,
    kind.decouples ? 'decoupling' : '',
    ...PIN_NAMES.flatMap(([pin, called]) => (pins.some((p) => pin.test(p.name)) ? called : [])),
  ]
    .join(' ')
    .toLowerCase();
  // pin counts are whole: "4-pin" does not find "24-pin"
  if (/^\d/.test(word)) return text.split(/[\s,]+/).includes(word);
  return text.includes(word) || pins.some((p) => p.name.toLowerCase() === word);
}

/** "Resistor, 4.7 kΩ" */
export const partOfferText = ({ title, note }: PartOffer): string => (note ? `${title}, ${note}` : title);
export const paramSays = (value: number, unit: string): string => siFormat(value, unit, 4).replace('−', '-');
