/** The words of an explanation: one sentence at the top, one a link of the chain with its figures, one for the proof. */

import { grouped } from '../../shared/grouped.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Change } from '../document/changes.ts';
import { LED_STEPS } from '../run/readout/readings.ts';
import { boreOf } from '../sentence/damage.ts';
import { capital, noun, sentenceOf } from '../sentence/nouns.ts';
import type { Ref } from '../sentence/ref.ts';
import type { Sentence, Word } from '../sentence/sentence.ts';
import { hex } from '../units/hex.ts';
import { siFormat } from '../units/quantity.ts';
import type { Reason, TestedFix, WhyAnswer } from '../why/answer.ts';
import { rowOfHole, stripName } from '../why/nearby-holes.ts';

export interface WhyWords {
  readonly headline: Sentence;
  readonly note: string;
  readonly steps: readonly { readonly says: Sentence; readonly figures: string }[];
  readonly proof?: { readonly says: Sentence; readonly change: Change };
}

/** Causes that say more at the top than the link they stand behind. */
const TELLING = ['address-not-meant', 'not-as-wanted', 'as-wanted', 'resistor-large'];

/** plan: the one that was asked about; its nouns can be pointed at. */
export function sayWhy(answer: WhyAnswer, plan: Plan): WhyWords {
  const led = noun({ kind: 'led', id: answer.led }, plan);
  const cause = TELLING.map((code) => answer.reasons.find((r) => r.code === code)).find((r) => r) ?? answer.reasons[0];
  const clause = cause ? sentenceOf`: ${itself(clauseOf(cause, plan), answer.led)}` : sentenceOf`, and nothing on this bench says why`;
  const refused = answer.refused ? sentenceOf`It is not ${answer.refused}. ` : [];
  const { dim, lit } = LED_STEPS;
  return {
    headline: sentenceOf`${refused}${capital(led)} is ${LOOKS[answer.glow]}${clause}.`,
    note: `${siFormat(answer.amps, 'A')} flows through it. An LED shows from ${siFormat(dim, 'A')} and looks lit from ${siFormat(lit, 'A')}.`,
    steps: answer.reasons.map((r) => ({
      says: sentenceOf`${clauseOf(r, plan).map((w, i) => (i === 0 ? capital(w) : w))}.`,
      figures: figuresOf(r),
    })),
    ...(answer.proof ? { proof: { says: sayProof(answer.proof, answer.led, plan), change: answer.proof.change } } : {}),
  };
}

/** A clause that begins with the LED itself says "it" instead. */
const itself = (clause: Sentence, led: string): Sentence =>
  clause.map((w, i) => (i === 0 && typeof w !== 'string' && w.ref.id === led ? 'it' : w));

const LOOKS: Readonly<Record<WhyAnswer['glow'], string>> = {
  dark: 'dark',
  dim: 'dim',
  lit: 'lit',
  over: 'overdriven',
  undecided: 'undecided',
};

const levelWord = (level: unknown): string =>
  level === 'H' ? 'high' : level === 'L' ? 'low' : level === 'Z' ? 'off the bus' : 'undecided';
const rail = (side: unknown): string => (side === 'high' ? 'the supply’s +' : 'the supply’s −');

/** One link as a clause that can stand after a colon. */
function clauseOf(r: Reason, plan: Plan): Sentence {
  const d = r.data;
  const n = (i: number): Word => nounAt(r.at, i, plan);
  const address = hex(Number(d.address), Number(d.digits));
  switch (r.code) {
    case 'supply-off':
      return sentenceOf`${n(0)} is switched off`;
    case 'no-supply-here':
      return sentenceOf`there is no supply on this bench`;
    case 'part-damaged':
      return sentenceOf`${n(0)} is damaged and joins nothing any more`;
    case 'pin-damaged':
      return sentenceOf`${n(0)} is burnt open`;
    case 'led-shorted':
      return sentenceOf`both its legs are in ${stripName(String(d.strip))}, so no voltage can stand across it`;
    case 'led-reversed':
      return sentenceOf`${n(0)} stands the wrong way round: its anode belongs on the side that gives current`;
    case 'led-bridged':
      return sentenceOf`wires join its two legs, so no voltage can stand across it`;
    case 'supply-backwards':
      return sentenceOf`the supply of ${n(0)} is the wrong way round: its + and − are swapped`;
    case 'too-little-voltage':
      return sentenceOf`too little voltage is left for it`;
    case 'bypassed':
      return sentenceOf`pole ${Number(d.pole)} of ${n(0)} is closed and joins it to ${rail(d.side === 'high' ? 'low' : 'high')}`;
    case 'held-other-way':
      return sentenceOf`something joins ${n(0)} to ${rail(d.side === 'high' ? 'low' : 'high')} better than to ${rail(d.side)}`;
    case 'way-too-thin':
      return sentenceOf`the way from ${n(0)} to ${rail(d.side)} has too much resistance`;
    case 'capacitor-in-way':
      return sentenceOf`${n(0)} is all that leads on to ${rail(d.side)}, and a capacitor passes no steady current`;
    case 'switch-open':
      return sentenceOf`pole ${Number(d.pole)} of ${n(0)} is open, and the way to ${rail(d.side)} leads through it`;
    case 'no-difference':
      return sentenceOf`both its sides are at the same voltage`;
    case 'rail-apart':
      return sentenceOf`${stripName(String(d.strip))} is not joined to ${rail(d.side)}`;
    case 'one-row-off':
      return sentenceOf`${n(0)} is in ${stripName(String(d.beside))}, ${Number(d.by) === 1 ? 'one row' : `${d.by} rows`} beside ${rowOfHole(String(d.strip))}, in which the way to ${rail(d.side)} breaks off`;
    case 'nothing-there':
      return d.strip === ''
        ? sentenceOf`its way ends where nothing else is plugged in`
        : sentenceOf`in ${stripName(String(d.strip))} nothing leads on to ${rail(d.side)}`;
    case 'pin-floats':
      return sentenceOf`${n(0)} hangs in the air, and its own leakage can carry it to any level`;
    case 'pin-by-switch':
      return sentenceOf`${n(0)} is ${d.needed === 'high' ? 'low' : 'high'} because pole ${Number(d.pole)} of ${n(1)} is ${d.closed ? 'closed' : 'open'}`;
    case 'pin-tied':
      return r.at.length > 1 ? sentenceOf`${n(1)} ties ${n(0)} to ${rail(d.rail)}` : sentenceOf`${n(0)} is tied to ${rail(d.rail)}`;
    case 'pin-pulled':
      return r.at.length > 1
        ? sentenceOf`only ${n(1)} holds ${n(0)}, and it holds it ${d.needed === 'high' ? 'low' : 'high'}`
        : sentenceOf`${n(0)} is held ${d.needed === 'high' ? 'low' : 'high'}`;
    case 'chip-no-supply':
      return sentenceOf`${n(0)} has no supply, so its data pins give nothing`;
    case 'output-off':
      return d.level === 'X'
        ? sentenceOf`nobody can tell whether ${n(1)} is high or low, so nobody can tell whether the data pins are on the bus`
        : sentenceOf`${n(1)} is ${levelWord(d.level)}, so the data pins are off the bus`;
    case 'chip-storing':
      return sentenceOf`${n(0)} is still storing the last byte`;
    case 'output-overpowered':
      return sentenceOf`${n(0)} tries to be ${String(d.needed)}, but something stronger holds it`;
    case 'logic-output':
      return sentenceOf`${n(0)} is ${levelWord(d.level)}, as ${n(1)} is ${levelWord(d.is)} and would have to be ${levelWord(d.needs)}`;
    case 'logic-inputs':
      return sentenceOf`${n(0)} is ${levelWord(d.level)}: more than one input of ${n(1)} would have to change`;
    case 'logic-stored':
      return sentenceOf`${n(0)} is ${levelWord(d.level)}: that is what ${n(1)} has kept`;
    case 'address-unknown':
      return sentenceOf`nobody can tell whether ${n(0)} is high or low, so the memory may be reading any of ${grouped(Number(d.bytes))} bytes, and they differ in this bit`;
    case 'bit-uncertain':
      return sentenceOf`bit ${Number(d.bit)} of the byte at ${address} is uncertain since the last write`;
    case 'stored-bit':
      return sentenceOf`the byte at ${address} is ${hex(Number(d.byte), 2)}: its bit ${Number(d.bit)} is ${Number(d.value)}`;
    case 'address-not-meant':
      return sentenceOf`the memory reads address ${address}, where the switches mean ${hex(Number(d.meant), Number(d.digits))}: ${n(0)} reads ${levelWord(d.reads)} although pole ${Number(d.pole)} of ${n(1)} (${String(d.input)}) is ${d.closed ? 'closed' : 'open'}`;
    case 'pin-at-other-pole':
      return sentenceOf`${n(0)} is wired to pole ${Number(d.pole)} of ${n(1)}, where pole ${Number(d.meant)} is meant`;
    case 'not-as-wanted':
      return sentenceOf`the memory holds the wrong bit: the table wants bit ${Number(d.bit)} at ${address} to be ${Number(d.wants)}`;
    case 'as-wanted':
      return d.rule === '' ? sentenceOf`the table wants it so` : sentenceOf`the table wants it so: ${trimmed(String(d.rule))}`;
    case 'supply-limits':
      return sentenceOf`${n(0)} is at its current limit and lets its voltage sag`;
    case 'resistor-large':
      return sentenceOf`${n(0)} in its way is too large`;
    case 'nothing-limits':
      return sentenceOf`no resistor limits its current`;
    case 'resistor-limits':
      return sentenceOf`${n(0)} sets its current`;
    case 'output-gives':
      return sentenceOf`${n(0)} is ${levelWord(d.level)} and feeds it`;
    case 'fed-by-supply':
      return sentenceOf`the supply feeds it without a memory between`;
    default:
      throw new Error(`no words for the reason ${r.code}`);
  }
}

const trimmed = (rule: string): string => rule.replace(/\.$/, '');

const nounAt = (at: readonly Ref[], i: number, plan: Plan): Word => {
  const ref = at[i];
  return ref ? noun(ref, plan) : 'it';
};

const boreSays = (d: Reason['data']): string => {
  const { who, did, unit } = boreOf(String(d.by));
  return `${who} ${did} ${siFormat(Number(d.measured), unit)}, limit ${siFormat(Number(d.limit), unit)}`;
};

/** The measured figures behind a link, beside what they are held against. */
function figuresOf({ code, data: d }: Reason): string {
  const volts = typeof d.volts === 'number' ? siFormat(d.volts, 'V') : '';
  switch (code) {
    case 'pin-floats':
      return `${volts} now; ${siFormat(Number(d.ohms), 'Ω')} × ${siFormat(Number(d.leakage), 'A')} of leakage = ${siFormat(Number(d.ohms) * Number(d.leakage), 'V')}`;
    case 'part-damaged':
    case 'pin-damaged':
      return boreSays(d);
    case 'output-gives':
      return `${volts} at ${siFormat(Math.abs(Number(d.amps)), 'A')}`;
    case 'too-little-voltage':
      return `${volts} across it; it looks lit from ${siFormat(Number(d.needs), 'V')}, and the supply gives ${siFormat(Number(d.supply), 'V')}`;
    case 'way-too-thin':
      return `${siFormat(Number(d.ohms), 'Ω')}; ${volts} there`;
    case 'resistor-large':
      return `${siFormat(Number(d.ohms), 'Ω')} takes ${volts}${d.usual === undefined ? '' : `; the other LEDs have ${siFormat(Number(d.usual), 'Ω')}`}`;
    case 'resistor-limits':
      return `${siFormat(Number(d.ohms), 'Ω')} takes ${volts}`;
    case 'nothing-limits':
      return `${siFormat(Number(d.amps), 'A')}, limit ${siFormat(Number(d.most), 'A')}`;
    case 'supply-limits':
      return `${siFormat(Number(d.amps), 'A')} at ${volts}`;
    case 'output-overpowered':
      return `${volts} at ${siFormat(Number(d.amps), 'A')}`;
    case 'output-off':
      return `${volts}; to read it must be ${levelWord(d.needs)}`;
    case 'stored-bit':
      return `address ${hex(Number(d.address), Number(d.digits))} → ${Number(d.byte).toString(2).padStart(8, '0')}`;
    default:
      return volts;
  }
}

/** What was tried, and what it did. */
function sayProof(p: TestedFix, led: string, plan: Plan): Sentence {
  const change = siFormat(p.after.amps, 'A');
  const others =
    p.others.length === 0
      ? sentenceOf` No other LED changes.`
      : sentenceOf` ${p.others.length === 1 ? 'One other LED changes' : `${p.others.length} other LEDs change`} too: ${p.others.map((id) => plan.parts.find((part) => part.id === id)?.label ?? id).join(', ')}.`;
  const [first, second] = p.both ?? [];
  const act =
    first && second
      ? sentenceOf`${doing(first, plan)}, ${doing(second, plan).map((w, i) => (i === 0 && typeof w === 'string' ? w.charAt(0).toLowerCase() + w.slice(1) : w))},`
      : doing(p, plan);
  return sentenceOf`${act} and ${noun({ kind: 'led', id: led }, plan)} takes ${change} and is lit.${others}`;
}

function doing(p: Reason, plan: Plan): Sentence {
  const d = p.data;
  const n = (i: number): Word => nounAt(p.at, i, plan);
  switch (p.code) {
    case 'switch-on':
      return sentenceOf`Switch ${n(0)} on`;
    case 'set-switch':
      return sentenceOf`${d.closed ? 'Close' : 'Open'} pole ${Number(d.pole)} of ${n(0)}`;
    case 'replace':
      return sentenceOf`Replace ${n(0)}`;
    case 'turn-led':
      return sentenceOf`Turn ${n(0)} round`;
    case 'move-leg':
      return sentenceOf`Move ${n(0)} to ${point(d.hole)}`;
    case 'move-end':
      return sentenceOf`Move the end of ${n(0)} from ${point(d.from)} to ${point(d.hole)}`;
    case 'join-rail':
    case 'add-wire':
      return sentenceOf`Add a wire from ${point(d.from)} to ${point(d.to)}`;
    case 'add-resistor':
      return sentenceOf`Add ${siFormat(Number(d.ohms), 'Ω')} from ${point(d.from)} to ${point(d.to)}`;
    case 'fit-resistor':
      return sentenceOf`Fit ${siFormat(Number(d.ohms), 'Ω')} as ${n(0)}`;
    case 'store-byte':
      return sentenceOf`Write ${hex(Number(d.value), 2)} to address ${hex(Number(d.address), 3)} of ${n(0)}`;
    case 'take-wire':
      return sentenceOf`Take out ${n(0)}`;
    default:
      throw new Error(`no words for the edit ${p.code}`);
  }
}

const point = (name: unknown): Word => ({ text: String(name), ref: { kind: 'point', id: String(name) } });
