/** The notation of `press`: one word a hand act, read into steps before anything is done. */
import { type Action, done, ERASER, failed, type Outcome, parseQuantity } from '../../sim-core/index.ts';

export type ScriptStep = { readonly word: string } & (
  | { readonly do: 'acts'; readonly acts: readonly Action[] }
  | { readonly do: 'press'; readonly part: string }
  | { readonly do: 'wait'; readonly seconds: number }
  | { readonly do: 'read' }
  | { readonly do: 'findings' }
  | { readonly do: 'why'; readonly led: string; readonly supposed?: 'dark' | 'lit' }
);

export const NOTATION: ReadonlyArray<readonly [word: string, means: string]> = [
  ['PS1=on', 'switch a supply or a single switch on; off likewise'],
  ['S1.3=on', 'set pole 3 of switch S1'],
  ['S1=10110', 'set its poles from the first on'],
  ['press:SB1', 'press a button and let go of it'],
  ['hold:SB1', 'press it and stay on it'],
  ['let-go:SB1', 'let go of it'],
  ['move:W12.to=+a4', 'pull one end of a wire (from or to) and push it into another tie point'],
  ['wait:2ms', 'let time pass'],
  ['light:U1=1250s', 'hold its window under an eraser so long; @2m after the time: under that many W/cm²; ,covered: with a label on it'],
  ['read', 'print LEDs, chips and supplies'],
  ['findings', 'print the findings of this moment'],
  ['why:D3', 'explain an LED'],
  ['why:D3=dark', 'explain why it is dark, or hear that it is not; lit likewise'],
];

const ID = '[A-Za-z]\\w*';
const SET_POLE = new RegExp(`^(${ID})\\.(\\d+)=(on|off)$`);
const SET_ONE = new RegExp(`^(${ID})=(on|off)$`);
const SET_ALL = new RegExp(`^(${ID})=([01]+)$`);
const BUTTON = new RegExp(`^(press|hold|let-go):(${ID})$`);
const MOVE = new RegExp(`^move:(${ID})\\.(from|to)=(\\S+)$`);
const WHY = new RegExp(`^why:(${ID}(?:\\.\\w+)?)(?:=(dark|lit))?$`);

const LIGHT = new RegExp(`^light:(${ID})=([^@,]+)(?:@([^,]+))?(,covered)?$`);

const set = (part: string, pole: number, closed: boolean): Action => ({ do: 'set', part, pole, closed });

function readWord(word: string): Outcome<ScriptStep> {
  if (word === 'read' || word === 'findings') return done({ word, do: word });
  const one = SET_ONE.exec(word);
  if (one?.[1]) return done({ word, do: 'acts', acts: [set(one[1], 0, one[2] === 'on')] });
  const all = SET_ALL.exec(word);
  if (all?.[1]) {
    const part = all[1];
    return done({ word, do: 'acts', acts: [...(all[2] ?? '')].map((c, pole) => set(part, pole, c === '1')) });
  }
  const pole = SET_POLE.exec(word);
  if (pole?.[1]) {
    if (Number(pole[2]) < 1) return failed(word, `"${word}": poles are counted from 1.`);
    return done({ word, do: 'acts', acts: [set(pole[1], Number(pole[2]) - 1, pole[3] === 'on')] });
  }
  const button = BUTTON.exec(word);
  if (button?.[2]) {
    const part = button[2];
    if (button[1] === 'press') return done({ word, do: 'press', part });
    return done({ word, do: 'acts', acts: [{ do: button[1] === 'hold' ? 'press' : 'release', part }] });
  }
  const move = MOVE.exec(word);
  if (move?.[1])
    return done({
      word,
      do: 'acts',
      acts: [{ do: 'move-wire', wire: move[1], end: move[2] === 'from' ? 'from' : 'to', point: move[3] ?? '' }],
    });
  const why = WHY.exec(word);
  if (why?.[1]) return done({ word, do: 'why', led: why[1], ...(why[2] && { supposed: why[2] === 'dark' ? 'dark' : 'lit' }) });
  const light = LIGHT.exec(word);
  if (light?.[1]) {
    const seconds = parseQuantity(light[2] ?? '', 's');
    if (!seconds.ok) return failed(word, `"${word}": ${seconds.failure.says}`);
    const strength = light[3] === undefined ? done(ERASER) : parseQuantity(light[3].replace(/W\/cm[²2]$/, ''));
    if (!strength.ok) return failed(word, `"${word}": ${strength.failure.says}`);
    const covered = light[4] === undefined ? {} : { covered: true };
    return done({
      word,
      do: 'acts',
      acts: [{ do: 'light', part: light[1], seconds: seconds.value, wattsPerCm2: strength.value, ...covered }],
    });
  }
  if (word.startsWith('wait:')) {
    const seconds = parseQuantity(word.slice(5), 's');
    if (!seconds.ok) return failed(word, `"${word}": ${seconds.failure.says}`);
    if (seconds.value < 0 || seconds.value > 3600) return failed(word, `"${word}": wait from 0 to 3600 s.`);
    return done({ word, do: 'wait', seconds: seconds.value });
  }
  return failed(word, `"${word}" is not an act known here. Write one of ${NOTATION.map(([w]) => w).join(', ')}.`);
}

/** All words, or the first that cannot be read, by its number. */
export function readScript(words: readonly string[]): Outcome<readonly ScriptStep[]> {
  const steps: ScriptStep[] = [];
  for (const [i, word] of words.entries()) {
    const step = readWord(word);
    if (!step.ok) return failed(`word ${i + 1}`, `Word ${i + 1}, ${step.failure.says}`);
    steps.push(step.value);
  }
  return done(steps);
}
