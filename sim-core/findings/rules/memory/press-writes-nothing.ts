/** A button that should write a memory and does not: its strobe stays high, its capacitor stays charged, or the memory is not selected. */

import { thresholdsOf } from '../../../parts/part.ts';
import type { ChipInput, ChipSite } from '../../../run/circuit/sites.ts';
import { isButton } from '../../../run/circuit/switch-settings.ts';
import type { PinReading, Readings } from '../../../run/readout/readings.ts';
import { inVolts, its, type Ref, say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import type { ButtonPress } from '../../press.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { tiedLevel } from '../../tied-inputs.ts';
import { neverDischarged, pulses, STROBE, sidesTouch } from '../../write-button.ts';

/** Control inputs that are for reading or for the pulse itself; all others select the chip. */
const NOT_SELECT: ReadonlySet<string> = new Set(['/OE', STROBE, '/PGM']);

interface Data {
  readonly button: Ref;
  /** the strobe; where the memory is not selected the input that keeps it so */
  readonly pin: Ref;
  readonly memory: Ref;
  readonly why: 'still' | 'charged' | 'not selected';
  /** the first press does write */
  readonly once: boolean;
  /** of the pin, or across the capacitor, and what it would have to be: low up to, or high from [V] */
  readonly measured: number;
  readonly limit: number;
  readonly needs: 'L' | 'H';
  /** what keeps its charge */
  readonly capacitor?: Ref;
}

export const pressWritesNothing = defineRule<Data>({
  code: 'memory/press-writes-nothing',
  severity: 'fault',
  reads: 'press',
  apart: ({ memory, why }) => `${memory.id} ${why}`,
  look: (press) => press.circuit.chips.flatMap((chip) => nothingWritten(press, chip)),
  message: ({ button, pin, memory, why, once, measured, limit, needs, capacitor }) => {
    const level = `${inVolts(measured)} (${needs === 'L' ? `low is up to ${inVolts(limit)}` : `high is from ${inVolts(limit)}`})`;
    if (why === 'still')
      return say`Pressing ${button} writes nothing: ${pin} stays at ${level}. Check the wires from the button, and its capacitor, to the pin.`;
    if (why === 'not selected')
      return say`Pressing ${button} writes nothing: ${memory} is not selected, ${its(pin)} is at ${level}. Wire it to ${needs === 'L' ? '−' : '+'}.`;
    const what = once ? say`The first press of ${button} writes, the next writes nothing` : say`Pressing ${button} writes nothing`;
    const cap = capacitor ?? 'its capacitor';
    return say`${what}: nothing discharges ${cap}, which keeps ${inVolts(measured)}, so ${pin} does not fall to a low level (up to ${inVolts(limit)}). Put a resistor across ${cap}.`;
  },
});

const at = ({ chips }: Readings, { leg }: ChipInput): PinReading | undefined =>
  chips.find((c) => c.part === leg.part.id)?.pins.find((p) => p.pin === leg.pin);

function nothingWritten(press: ButtonPress, chip: ChipSite): Data[] {
  const { circuit, button, before, held, reports } = press;
  const strobe = chip.spec.word && chip.inputs.find((i) => i.name === STROBE);
  const reading = before.chips.find((c) => c.part === chip.placed.part.id);
  if (!strobe || !reading || reading.state.doing === 'no supply') return [];
  // one that is tied has a finding of its own, or is meant to be read only
  if (at(before, strobe)?.level !== 'H' || (tiedLevel(circuit, strobe.leg) === 'H' && !pulses(circuit, button, strobe))) return [];
  if (sidesTouch(circuit, button) || !(pulses(circuit, button, strobe) || isIdle(press, strobe))) return [];
  const [first, second] = reports.map((r) => r.filter((e) => e.part === chip.placed.part.id).length);
  const { vil } = thresholdsOf(strobe.figures, reading.supply);
  const about = { once: false, button: toPart(button.placed), pin: toPin(strobe.leg), memory: toPart(chip.placed) };
  if (second) return [];
  const [stuck] = neverDischarged(circuit, button);
  if (stuck) {
    const { legs, placed } = stuck.capacitor;
    const [a = 0, b = 0] = legs.map((leg) => press.released.nets[circuit.netOf(leg).index]?.volts ?? 0);
    return [
      { ...about, why: 'charged', once: Boolean(first), measured: Math.abs(a - b), limit: vil, needs: 'L', capacitor: toPart(placed) },
    ];
  }
  if (first) return [];
  const moved = press.pulsesAt(strobe) > 0 || at(held, strobe)?.level !== 'H';
  if (!moved) return [{ ...about, why: 'still', measured: at(held, strobe)?.volts ?? 0, limit: vil, needs: 'L' }];
  return chip.inputs.flatMap((pin): Data[] => {
    const needs = chip.spec.toRead?.[pin.name];
    const now = at(before, pin);
    if (!needs || NOT_SELECT.has(pin.name) || !now || now.level === needs) return [];
    const levels = thresholdsOf(pin.figures, reading.supply);
    const limit = needs === 'L' ? levels.vil : levels.vih;
    return [{ ...about, pin: toPin(pin.leg), why: 'not selected', measured: now.volts, limit, needs }];
  });
}

/** Does the press change no level and no LED, while no other button reaches the strobe? Then it may have been meant to. */
function isIdle({ circuit, button, before, held }: ButtonPress, strobe: ChipInput): boolean {
  const seen = ({ chips, leds }: Readings) => JSON.stringify([chips.map((c) => c.pins.map((p) => p.level)), leds.map((l) => l.brightness)]);
  return seen(before) === seen(held) && !circuit.contacts.some((c) => c !== button && isButton(c) && pulses(circuit, c, strobe));
}

export const pressWritesNothingExamples = (): RuleExamples => ({
  bad: { points: 'S9', bench: memoryBench(DATA_5A + writeButton('1.5n').replace(/resistor RC.*/, '')) },
  good: { bench: memoryBench(DATA_5A + writeButton('1.5n')) },
});
