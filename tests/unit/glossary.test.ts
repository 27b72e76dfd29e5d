/** One word for one thing: words that the trade does not use for what this product shows occur in no text that a user reads. */
import { describe, expect, test } from 'vitest';
import { pageTexts, type VisibleText, visibleTexts } from '../support/visible-text.ts';

interface Retired {
  /** the word or phrase, with as much context as tells it from its ordinary use */
  readonly word: RegExp;
  readonly say: string;
}

/**
 * A bare pattern where the word has no place at all; a pattern with context where it has an ordinary meaning as well: "digit" of a number, "free" hole,
 * "turn" in "in turn", "choose" a larger memory, "by hand".
 */
const RETIRED: readonly Retired[] = [
  { word: /\blamps?\b/i, say: 'LED, segment or indicator' },
  { word: /\bleads?\b/i, say: 'wire; connects to' },
  { word: /\b(?:leads? on to|joined to|breaks? off)\b/i, say: 'connects to; connected to; open circuit' },
  { word: /\bshelf\b/i, say: 'Parts' },
  {
    word: /\b(?:[Aa] digit|one digit|two digits|of a digit) (?:that|with|on the bench|shows?|DS)|\bsegments? of a digit\b|\bSeven-segment digit/,
    say: '7-segment display',
  },
  { word: /\bbar of (?:ten|LEDs)\b|\btakes? bars\b/i, say: 'LED bar graph' },
  { word: /\bfuse (?:PROM|memor)|\bfuses? (?:is|are) blown/i, say: 'PROM (fusible link)' },
  { word: /\bcrystal clock\b|\bpulse source\b/i, say: 'crystal oscillator; clock generator' },
  { word: /\b(?:take|takes|taken|took) (?:\S+ ){0,3}off\b/i, say: 'delete' },
  { word: /\bturn(?:s|ed)? (?:it(?! on| off)|the LED|the chip|the part|parts?|end for end)\b|\bturn round\b/i, say: 'rotate; reverse' },
  { word: /\bcopy beside\b|\blet(?:s|ting)? go\b/i, say: 'duplicate; release; deselect' },
  { word: /\bre-end\b|\btake it over\b|\bput it away\b|\bin (?:the|your) hand\b/i, say: 'move end; apply; cancel; placing' },
  { word: /\btaken back\b|\bmade again\b/i, say: 'undid; redid' },
  { word: /\bbroken\b|\bluck(?:y|ily)?\b|\bharm(?:s|ed|ful)?\b|\bhints?\b/i, say: 'fault; marginal; damage risk; suggestion' },
  { word: /\bnothing found\b|\bas the (?:bench|switches) (?:now )?stands?\b/i, say: 'no problems found' },
  { word: /\bin the air\b/i, say: 'floats: not connected' },
  { word: /\bnobody (?:can tell|knows|says)\b|\bundecided\b|\bcannot be told\b/i, say: 'undefined (X)' },
  { word: /\b(?:off|on) the bus\b|\bpulls? against\b|\bfights?\b/i, say: 'high-impedance (Z); driving; bus contention' },
  { word: /\bsurely\b|\bperhaps (?:low|high)\b/i, say: 'guaranteed; maximum' },
  { word: /\brails? beside [aj]\b|\b(?:left|right) half of B/i, say: 'board B1, bottom − rail, right half' },
  { word: /\bbleeder\b|\bchatter(?:s|ed|ing)?\b|\bempties\b/i, say: 'discharge resistor; contact bounce; discharges' },
  { word: /\bfree \(–\)|\bmay be anything\b/i, say: 'don’t care (–)' },
  { word: /\breal writer\b|\bmend(?:s|ed|ing)?\b|\banew\b|\bcolou?r rings?\b/i, say: 'programmer; fix; again; colour bands' },
  { word: /\btiming strip\b|\bclose-?up\b|\bpresentation size\b/i, say: 'timing diagram; inside view; presentation mode' },
  {
    word: /^\s*whole bench\s*$|\bshow(?:s|n)? the whole bench\b|\bdark slate\b|\blight paper\b|\bnotebook\b/i,
    say: 'fit; dark theme, light theme; panel',
  },
  { word: /\bhands\b/i, say: 'switch settings' },
  { word: /\bshall\b|\bby and by\b/i, say: 'should, must; gradually' },
];

const hitsIn = (texts: readonly VisibleText[]): string[] =>
  texts.flatMap(({ where, text }) =>
    RETIRED.flatMap(({ word, say }) => {
      const found = word.exec(text)?.[0];
      return found === undefined ? [] : [`${where} "${found}" → ${say}: ${text.trim().replace(/\s+/g, ' ').slice(0, 120)}`];
    }),
  );

describe('no retired word is read by a user', () => {
  for (const area of ['sim-core', 'shared', 'server', 'client'])
    test(`in ${area}`, () => {
      const texts = visibleTexts(area);
      expect(texts.length).toBeGreaterThan(40);
      expect(hitsIn(texts)).toEqual([]);
    }, 60_000);

  test('in the README, the page and its manifest', () => {
    const texts = pageTexts();
    expect(texts.length).toBeGreaterThan(100);
    expect(hitsIn(texts)).toEqual([]);
  });
});

test('the patterns find what they are for, and spare the ordinary meaning', () => {
  const found = (text: string) => hitsIn([{ where: '', text }]).length > 0;
  const retired = [
    'the lamp is dark',
    'a red lead',
    'two digits that show the tens',
    'nobody can tell',
    'off the bus',
    'surely low',
    'Take it off',
    'let go',
  ];
  expect(retired.filter((t) => !found(t))).toEqual([]);
  const ordinary = [
    'two hexadecimal digits',
    'the other LEDs in turn',
    'by hand',
    'a misleading sign',
    'choose a larger memory',
    'no free hole',
    'leading zeros',
  ];
  expect(ordinary.filter(found)).toEqual([]);
});
