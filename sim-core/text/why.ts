/** The words of an explanation: one sentence at the top, one a step of the chain with its figures, one for the tested fix. */

import { grouped } from '../../shared/grouped.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Change } from '../document/changes.ts';
import { LED_STEPS } from '../run/readout/readings.ts';
import { overloadWords } from '../sentence/damage.ts';
import { capital, noun, type Sentence, sentenceOf, type Word } from '../sentence/wording.ts';
import { hex } from '../units/hex.ts';
import { siFormat } from '../units/quantity.ts';
import { currentText, seenVolts } from '../units/seen.ts';
import type { Reason, TestedFix, WhyAnswer } from '../why/answer.ts';
import { brightnessText } from './displays.ts';
import { movedEndsOf, sayMovedWires } from './moved-wires.ts';
import { sayRepair } from './repairs.ts';
import { clauseOf, levelWord, MEANT_CODES, nounAt, poleAt, withoutStop, wordList } from './why-clauses.ts';

/** An explanation in words: the headline, its links with their figures, and the tested fix. */
export interface WhyWords {
  readonly headline: Sentence;
  readonly note: string;
  readonly steps: readonly { readonly says: Sentence; readonly figures: string }[];
  /** called: a fix, or, where the LED is as the table wants it, only what would change it */
  readonly proof?: { readonly called: string; readonly says: Sentence; readonly change: Change };
  /** what may be so instead: putting it right makes every row right too */
  readonly instead?: readonly Sentence[];
}

/** Causes that say more at the top than the step they come after. */
const HEADLINE_CODES = [...MEANT_CODES, 'wrong-address', 'other-output', 'not-as-wanted', 'as-wanted', 'resistor-large'];

/** plan: the one that was asked about; its nouns can be pointed at. */
export function sayWhy(answer: WhyAnswer, bench: Plan): WhyWords {
  const plan = withMissing(bench);
  const led = noun({ kind: 'led', id: answer.led }, plan);
  const cause = HEADLINE_CODES.map((code) => answer.reasons.find((r) => r.code === code)).find((r) => r) ?? answer.reasons[0];
  const clause = cause ? sentenceOf`: ${asPronoun(clauseOf(cause, plan), answer.led)}` : sentenceOf`, and no cause was found on this bench`;
  const refused = answer.refused ? sentenceOf`It is not ${answer.refused}. ` : [];
  const { dim, lit } = LED_STEPS;
  const called = answer.reasons.some((r) => r.code === 'as-wanted') ? 'What would change it' : 'Tested fix';
  return {
    headline: sentenceOf`${refused}${capital(led)} is ${brightnessText(answer.brightness)}${clause}.`,
    note: `Its current is ${currentText(answer.amps)}. An LED is visible from ${siFormat(dim, 'A')} and looks lit from ${siFormat(lit, 'A')}.`,
    steps: answer.reasons.map((r) => stepOf(r, plan)),
    ...(answer.instead?.length ? { instead: answer.instead.map((r) => stepOf(r, plan).says) } : {}),
    ...(answer.proof ? { proof: { called, says: sayTestedFix(answer.proof, answer.led, plan), change: answer.proof.change } } : {}),
  };
}

/** What is meant but gone has its name too. */
function withMissing(plan: Plan): Plan {
  const gone = plan.meant?.parts.filter(({ id }) => !plan.parts.some((p) => p.id === id)) ?? [];
  return gone.length === 0 ? plan : { ...plan, parts: [...plan.parts, ...gone] };
}

/** A reason as a sentence of its own, with its figures. Throws for one that has no words. */
export const stepOf = (reason: Reason, plan: Plan): WhyWords['steps'][number] => ({
  says: sentenceOf`${clauseOf(reason, plan).map((w, i) => (i === 0 ? capital(w) : w))}.`,
  figures: figuresOf(reason),
});

/** A clause that begins with the LED itself says "it" instead. */
const asPronoun = (clause: Sentence, led: string): Sentence =>
  clause.map((w, i) => (i === 0 && typeof w !== 'string' && w.ref.id === led ? 'it' : w));

const damageFigures = (d: Reason['data']): string => {
  const { who, did, unit } = overloadWords(String(d.by));
  return `${who} ${did} ${siFormat(Number(d.measured), unit)}, limit ${siFormat(Number(d.limit), unit)}`;
};

/** Above this resistance a net counts as not connected [Ω]: no voltage comes of leakage times that. */
const NOTHING = 1e9;
type Figures = (d: Reason['data'], volts: string) => string;

/** The measured figures of a step beside their limits; a step that is not here shows its voltage. */
const FIGURES: Readonly<Record<string, Figures>> = {
  'pin-floats': (d, volts) =>
    d.high || Number(d.ohms) > NOTHING
      ? `${volts} now${d.high ? '' : `; up to ${siFormat(Number(d.leakage), 'A')} of leakage moves it`}`
      : `${volts} now; ${siFormat(Number(d.ohms), 'Ω')} × ${siFormat(Number(d.leakage), 'A')} of leakage = ${siFormat(Number(d.ohms) * Number(d.leakage), 'V')}`,
  'part-damaged': damageFigures,
  'pin-damaged': damageFigures,
  'output-drives': (d, volts) => `${volts} at ${siFormat(Math.abs(Number(d.amps)), 'A')}`,
  'too-little-voltage': (d, volts) =>
    `${volts} across it; it looks lit from ${siFormat(Number(d.needs), 'V')}, and the supply is at ${siFormat(Number(d.supply), 'V')}`,
  'path-resistance-high': (d, volts) => `${siFormat(Number(d.ohms), 'Ω')}; ${volts} there`,
  'resistor-large': (d, volts) =>
    `${siFormat(Number(d.ohms), 'Ω')} drops ${volts}${d.usual === undefined ? '' : `; the other LEDs have ${siFormat(Number(d.usual), 'Ω')}`}`,
  'resistor-limits': (d, volts) => `${siFormat(Number(d.ohms), 'Ω')} drops ${volts}`,
  'nothing-limits': (d) => `${siFormat(Number(d.amps), 'A')}, limit ${siFormat(Number(d.most), 'A')}`,
  'supply-shorted': (d, volts) => `${siFormat(Number(d.amps), 'A')} at ${volts}`,
  'supply-limits': (d, volts) => `${siFormat(Number(d.amps), 'A')} at ${volts}`,
  'output-overpowered': (d, volts) => `${volts} at ${siFormat(Number(d.amps), 'A')}`,
  'output-disabled': (d, volts) => `${volts}; to read it must be ${levelWord(d.needs)}`,
  'stored-bit': (d) => `address 0x${hex(Number(d.address), Number(d.digits))} → ${Number(d.byte).toString(2).padStart(8, '0')}`,
};

function figuresOf({ code, data }: Reason): string {
  const volts = typeof data.volts === 'number' ? siFormat(seenVolts(data.volts), 'V') : '';
  return FIGURES[code]?.(data, volts) ?? volts;
}

/** "All 32 rows of the table are then right." Of a large table only some rows were tried. */
function rowsText({ was, right, of, all }: NonNullable<TestedFix['rows']>): Sentence {
  const rows = of === all ? `${grouped(of)} rows of the table` : `${grouped(of)} rows that were tried, of ${grouped(all)},`;
  return right === of
    ? sentenceOf` All ${rows} are then right.`
    : sentenceOf` ${grouped(right)} of ${rows} are then right, ${grouped(was)} before.`;
}

/** What was tried, and what it did: "Close pole 1 of S1: LED1 is then lit, at 5 mA. No other LED changes." */
function sayTestedFix(p: TestedFix, led: string, plan: Plan): Sentence {
  const others = p.rows
    ? rowsText(p.rows)
    : p.others.length === 0
      ? sentenceOf` No other LED changes.`
      : sentenceOf` ${p.others.length === 1 ? 'One other LED changes' : `${p.others.length} other LEDs change`} too: ${p.others.map((id) => plan.parts.find((part) => part.id === id)?.label ?? id).join(', ')}.`;
  return sentenceOf`${fixAct(p, plan)}: ${noun({ kind: 'led', id: led }, plan)} is then ${p.after.brightness}${p.after.brightness === 'dark' ? '' : `, at ${siFormat(p.after.amps, 'A')}`}.${others}`;
}

/** What a person does: one act, two at once, or several alike. */
function fixAct(p: TestedFix, plan: Plan): Sentence {
  const things = () => wordList(p.at.map((_, i) => nounAt(p.at, i, plan)));
  const [first, second] = p.both ?? [];
  if (first && second) return sentenceOf`${actOf(first, plan)} and ${actOf(second, plan).map(lowerFirst)}`;
  const ends = p.code === 'move-wires' ? movedEndsOf(p.change) : undefined;
  if (ends) return sentenceOf`${sayMovedWires(ends, plan)}, ${things()}`;
  if (p.code === 'all-as-meant') return sentenceOf`Put ${things()} as meant`;
  return p.code === 'put-right' ? [withoutStop(sayRepair(p.change, plan))] : actOf(p, plan);
}

const lowerFirst = (w: Word, i: number): Word => (i === 0 && typeof w === 'string' ? w.charAt(0).toLowerCase() + w.slice(1) : w);

const point = (name: unknown): Word => ({ text: String(name), ref: { kind: 'point', id: String(name) } });

type Act = (n: Word, d: Reason['data'], pole: Word) => Sentence;
const addWire: Act = (_, d) => sentenceOf`Add a wire from ${point(d.from)} to ${point(d.to)}`;

/** What a person does for each kind of fix. */
const ACTS: Readonly<Record<string, Act>> = {
  'switch-on': (n) => sentenceOf`Switch ${n} on`,
  'set-switch': (_, d, pole) => sentenceOf`${d.closed ? 'Close' : 'Open'} ${pole}`,
  replace: (n) => sentenceOf`Replace ${n}`,
  'reverse-led': (n) => sentenceOf`Reverse ${n}`,
  'move-leg': (n, d) => sentenceOf`Move ${n} to ${point(d.hole)}`,
  'move-end': (n, d) => sentenceOf`Move the end of ${n} from ${point(d.from)} to ${point(d.hole)}`,
  'join-rail': addWire,
  'add-wire': addWire,
  'add-resistor': (_, d) => sentenceOf`Add ${siFormat(Number(d.ohms), 'Ω')} from ${point(d.from)} to ${point(d.to)}`,
  'change-resistor': (n, d) => sentenceOf`Change ${n} to ${siFormat(Number(d.ohms), 'Ω')}`,
  'store-byte': (n, d) => sentenceOf`Write ${hex(Number(d.value), 2)} to address 0x${hex(Number(d.address), Number(d.digits))} of ${n}`,
  'store-table': (n, d) => sentenceOf`Write the table into ${n}: ${grouped(Number(d.bytes))} bytes differ`,
  'put-back': (n, d) => (d.to === '' ? sentenceOf`Put ${n} back` : sentenceOf`Put ${n} back, from ${point(d.from)} to ${point(d.to)}`),
  'move-part': (n, d) => sentenceOf`Move ${n} back to ${point(d.hole)}`,
  'turn-part': (n) => sentenceOf`Rotate ${n} by half a turn`,
  'set-value': (n, d) => sentenceOf`Set ${n} to ${String(d.meant)}`,
  'change-rails': (n, d) => sentenceOf`Take ${n} with ${d.split ? 'whole' : 'cut'} rails`,
  'remove-part': (n) => sentenceOf`Delete ${n}`,
  'move-wires': (_, d) => sentenceOf`Move these ${grouped(Number(d.wires))} wires to each other’s places`,
  'tie-pins': (n, d) => sentenceOf`Tie ${String(d.pins)} of ${n} to ${d.side === 'high' ? 'VCC' : 'GND'}, with a wire each`,
  'remove-wire': (n) => sentenceOf`Delete ${n}`,
};

function actOf({ code, at, data }: Reason, plan: Plan): Sentence {
  const act = ACTS[code];
  if (!act) throw new Error(`no words for the edit ${code}`);
  return act(nounAt(at, 0, plan), data, poleAt(at, 0, data.pole, plan));
}
