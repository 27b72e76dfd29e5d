/** The words of `press`, read into steps before anything is done. */
import { didYouMean, nearestNames } from '../../shared/misspelling.ts';
import type { Plan } from '../../shared/plan.ts';
import { namedPoles } from '../../shared/pole-names.ts';
import { type Action, done, ERASER, enumeration, failed, type Outcome, parseQuantity } from '../../sim-core/index.ts';

export type ScriptStep = { readonly word: string } & Doing;
type Doing =
  | { readonly do: 'acts'; readonly acts: readonly Action[] }
  | { readonly do: 'press'; readonly part: string }
  | { readonly do: 'wait'; readonly seconds: number }
  | { readonly do: 'read' }
  | { readonly do: 'findings' }
  | { readonly do: 'band'; readonly of: string }
  | { readonly do: 'why'; readonly question: string };

export const NOTATION: ReadonlyArray<readonly [word: string, means: string]> = [
  ['PS1=on', 'switch a supply or a single switch on; off likewise'],
  ['S1.3=on', 'set pole 3 of switch S1'],
  ['S1.hot=on', 'set the pole that is called hot'],
  ['S1=10110', 'set its poles, the first one first'],
  ['press:SB1', 'press a button and release it'],
  ['hold:SB1', 'press it and hold it'],
  ['release:SB1', 'release it'],
  ['move:W12.to=+a4', 'move one end of a wire (from or to) to another hole'],
  ['wait:2ms', 'let time pass, at most 3600s'],
  ['light:U1=1250s', 'erase a UV EPROM for this time; @2m after the time: at that many W/cm²; ,covered: through its label'],
  ['read', 'print LEDs, chips, supplies and meters'],
  ['findings', 'print the findings of this moment'],
  [
    'band:LED3',
    'print the current of an LED, typical and least to most over specimens; PS1, a meter M1, a pin U1.9 or a hole a12 likewise',
  ],
  ['why:LED3', 'explain an LED'],
  ['why:LED3=dark', 'explain why it is dark, or correct that; lit likewise'],
  ['why:U1.A4', 'explain the level of a pin'],
  ['why:LED3=flickers', 'explain why an LED, or a pin, changes by itself'],
  ['why:U1=row', 'explain which row a memory reads; row=01100 or row=0x006 for why not that one'],
  ['why:U1=write', 'explain what came of the last write to a memory, or why none has come'],
  ['why:W3', 'explain why a wire carries what it carries'],
];

const ID = '[A-Za-z]\\w*';
/** Longest wait [s]. */
const LONGEST = 3600;

/** What a word may be, and how the rest of it is read once it has this form. */
const FORMS: ReadonlyArray<readonly [RegExp, (parts: readonly string[], word: string, plan: Plan) => Outcome<Doing>]> = [
  [/^(read|findings)$/, ([what]) => done({ do: what === 'read' ? 'read' : 'findings' })],
  [new RegExp(`^(${ID})=(on|off)$`), ([part = '', way]) => acts(set(part, 0, way === 'on'))],
  [new RegExp(`^(${ID})=([01]+)$`), ([part = '', poles = '']) => acts(...[...poles].map((c, pole) => set(part, pole, c === '1')))],
  [new RegExp(`^(${ID})\\.([^=]+)=(on|off)$`), readPole],
  [/^band:(\S+)$/, ([of = '']) => done({ do: 'band', of })],
  [new RegExp(`^press:(${ID})$`), ([part = '']) => done({ do: 'press', part })],
  [new RegExp(`^(hold|release):(${ID})$`), ([way, part = '']) => acts({ do: way === 'hold' ? 'press' : 'release', part })],
  [
    new RegExp(`^move:(${ID})\\.(from|to)=(\\S+)$`),
    ([wire = '', end, point = '']) => acts({ do: 'move-wire', wire, end: end === 'from' ? 'from' : 'to', point }),
  ],
  [/^wait:(.*)$/, readWait],
  [new RegExp(`^light:(${ID})=([^@,]+)(?:@([^,]+))?(,covered)?$`), readLight],
  [/^why:(\S+)$/, ([question = '']) => done({ do: 'why', question: question.replaceAll('=', ' ') })],
];

const acts = (...acts: readonly Action[]): Outcome<Doing> => done({ do: 'acts', acts });
const set = (part: string, pole: number, closed: boolean): Action => ({ do: 'set', part, pole, closed });

/** A pole by its number or its name. */
function readPole([part = '', pole = '', way]: readonly string[], word: string, plan: Plan): Outcome<Doing> {
  if (/^0+$/.test(pole)) return failed('run/no-switch', word, `"${word}": poles are counted from 1.`);
  if (/^\d+$/.test(pole)) return acts(set(part, Number(pole) - 1, way === 'on'));
  const named = namedPoles(plan).get(pole.toLowerCase());
  if (named?.part === part) return acts(set(part, named.pole, way === 'on'));
  const names = [...namedPoles(plan).values()].filter((p) => p.part === part).map((p) => p.name);
  const has = didYouMean(nearestNames(pole, names)) || (names.length > 0 ? ` It has ${enumeration(names)}.` : ' Give its number.');
  return failed('run/no-switch', word, `"${word}": ${part} has no pole called ${pole}.${has}`);
}

function readWait([time = '']: readonly string[], word: string): Outcome<Doing> {
  const seconds = parseQuantity(time, 's');
  if (!seconds.ok) return failed(seconds.failure.code, word, `"${word}": ${seconds.failure.says}`);
  if (seconds.value < 0 || seconds.value > LONGEST) return failed('cli/bad-value', word, `"${word}": wait from 0 to ${LONGEST} s.`);
  return done({ do: 'wait', seconds: seconds.value });
}

function readLight([part = '', time = '', strength, covered]: readonly string[], word: string): Outcome<Doing> {
  const seconds = parseQuantity(time, 's');
  if (!seconds.ok) return failed(seconds.failure.code, word, `"${word}": ${seconds.failure.says}`);
  const irradiance = strength === undefined ? done(ERASER) : parseQuantity(strength.replace(/W\/cm[²2]$/, ''));
  if (!irradiance.ok) return failed(irradiance.failure.code, word, `"${word}": ${irradiance.failure.says}`);
  return acts({ do: 'light', part, seconds: seconds.value, wattsPerCm2: irradiance.value, ...(covered && { covered: true }) });
}

function readWord(word: string, plan: Plan): Outcome<ScriptStep> {
  for (const [form, read] of FORMS) {
    const found = form.exec(word);
    if (!found) continue;
    const step = read(found.slice(1), word, plan);
    return step.ok ? done({ word, ...step.value }) : step;
  }
  const verbs = NOTATION.flatMap(([w]) => (/^[a-z]/.test(w) ? [/^[a-z]+:?/.exec(w)?.[0] ?? w] : []));
  const near = didYouMean(nearestNames(/^[a-z]+:?/.exec(word)?.[0] ?? word, [...new Set(verbs)]));
  return failed(
    'command/bad-word',
    word,
    `"${word}" is not a word of press.${near || ` Write one of ${NOTATION.map(([w]) => w).join(', ')}.`}`,
  );
}

/** All words, or the first that cannot be read, by its number. `plan`: whose poles may be called by their names. */
export function readScript(words: readonly string[], plan: Plan): Outcome<readonly ScriptStep[]> {
  const steps: ScriptStep[] = [];
  for (const [i, word] of words.entries()) {
    const step = readWord(word, plan);
    if (!step.ok) return failed(step.failure.code, `word ${i + 1}`, `Word ${i + 1}, ${step.failure.says}`);
    steps.push(step.value);
  }
  return done(steps);
}
