/** Typed words that name a part, as lines that place it: "330R" in the command line offers "place 330R". */
import { partGroups, partOfferText } from '../edit/part-search.ts';
import { quoted } from './words.ts';

/** More are not listed. */
const MOST = 8;

interface PlaceLine {
  readonly line: string;
  readonly means: string;
  /** the words are its names and values */
  readonly named: boolean;
}

/** Best first. The line of the first is what was typed; the others are named by their kind and value. */
export function placeLines(text: string): readonly PlaceLine[] {
  const words = text.trim();
  if (words === '') return [];
  const offers = partGroups(words).flatMap((g) => g.offers);
  return offers.slice(0, MOST).map((offer, i) => ({
    line: `place ${i === 0 ? words : [offer.kind.id, ...Object.values(offer.placing.params ?? {}).map((v) => quoted(String(v)))].join(' ')}`,
    means: partOfferText(offer),
    named: offer.named,
  }));
}
