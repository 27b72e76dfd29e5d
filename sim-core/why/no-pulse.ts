/** Why no write has come to a memory: it is not selected, or what its buttons do to it, tried on a copy of the bench, and what keeps them from doing it. */

import { AWAY, FINGER } from '../findings/press.ts';
import { toPart, toPin } from '../findings/rule.ts';
import { neverDischarged, pulses, STROBE, sidesTouch } from '../findings/write-button.ts';
import type { ChipInput, ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { simulate } from '../run/simulation.ts';
import type { Chain, Reason } from './answer.ts';
import type { ExplanationQuestion } from './explanation-step.ts';
import { whyInput, whyOutput } from './output.ts';
import { whyPin } from './pin.ts';
import { levelOf } from './pin-level.ts';

/** Buttons that are tried. */
const MOST_TRIED = 8;

export function whyNoPulse(q: ExplanationQuestion, chip: ChipSite): Chain {
  const at = [toPart(chip.placed)];
  const none: Reason = { code: 'write-none', at, data: {} };
  const strobe = chip.inputs.find((i) => i.name === STROBE);
  if (!strobe) return [none, { code: 'write-no-strobe', at, data: {} }];
  if (q.scene.chip(chip.placed.part.id)?.state.doing === 'no supply') return [none, ...whyOutput(q, chip, 0, 'high').reasons];
  const deselected = whyNotSelected(q, chip);
  if (deselected.length > 0) return [none, ...deselected];
  const level = levelOf(q.scene.readings, toPin(strobe.leg).id);
  const held = whyPin(q, chip, strobe.leg, level === 'L' ? 'high' : 'low').reasons;
  const buttons = q.scene.circuit.contacts.filter((c) => c.contact.momentary);
  if (buttons.length === 0) return [none, { code: 'no-button', at: [toPin(strobe.leg)], data: {} }, ...held];
  const tried = buttons.slice(0, MOST_TRIED).map((button) => ({ button, writes: pressedTwice(q, chip, button) }));
  const working = tried.filter(({ writes: [first = 0, second = 0] }) => first + second > 0);
  const amiss = tried.flatMap(({ button }) => whatIsAmiss(q, strobe, button));
  if (working.length > 0) return [none, ...working.map(({ button, writes }) => pressed(button, chip, writes)), ...amiss];
  const useless: Reason = { code: 'press-no-write', at: [...at, ...tried.map((t) => toPart(t.button.placed))], data: {} };
  return [none, useless, ...amiss, ...(amiss.length > 0 ? [] : held)];
}

/** Control inputs that are for reading or for the pulse itself; all others select the chip. */
const NOT_SELECT: ReadonlySet<string> = new Set(['/OE', '/WE', '/PGM']);

/** The first input that keeps the memory from being selected, and what holds it: a pulse then writes nothing. */
function whyNotSelected(q: ExplanationQuestion, chip: ChipSite): readonly Reason[] {
  for (const [name, needs] of Object.entries(chip.spec.toRead ?? {})) {
    const leg = chip.inputs.find((i) => i.name === name)?.leg;
    const level = leg && levelOf(q.scene.readings, toPin(leg).id);
    if (!leg || !level || level === needs || NOT_SELECT.has(name)) continue;
    const held = whyInput(q, chip, leg, needs === 'L' ? 'low' : 'high').reasons;
    return [{ code: 'write-not-selected', at: [toPin(leg), toPart(chip.placed)], data: { level, needs } }, ...held];
  }
  return [];
}

/** On a copy at rest: how many writes each of two presses brings. */
function pressedTwice({ sim }: ExplanationQuestion, chip: ChipSite, { placed }: ContactSite): readonly number[] {
  const copy = simulate(sim.plan());
  if (!copy.ok) return [];
  const bench = copy.value;
  return [1, 2].map(() => {
    const before = bench.events.length;
    bench.act({ do: 'press', part: placed.part.id });
    bench.wait(FINGER);
    bench.act({ do: 'release', part: placed.part.id });
    bench.wait(AWAY);
    return bench.events.slice(before).filter((e) => e.part === chip.placed.part.id).length;
  });
}

const pressed = ({ placed }: ContactSite, chip: ChipSite, [first = 0, second = 0]: readonly number[]): Reason => ({
  code: first > 0 && second > 0 ? 'press-writes' : 'press-writes-once',
  at: [toPart(placed), toPart(chip.placed)],
  data: {},
});

/** Of a button that has to do with /WE: its sides are one net, or the capacitor beside it is never discharged. */
function whatIsAmiss({ scene: { circuit, at } }: ExplanationQuestion, strobe: ChipInput, button: ContactSite): readonly Reason[] {
  if (!pulses(circuit, button, strobe)) return [];
  if (sidesTouch(circuit, button)) return [{ code: 'button-one-net', at: [toPart(button.placed), ...button.legs.map(toPin)], data: {} }];
  return neverDischarged(circuit, button).map(({ capacitor: { placed, legs }, stuck }) => {
    const volts = Math.abs(at(circuit.netOf(legs[0]).index) - at(circuit.netOf(legs[1]).index));
    return { code: 'never-discharged', at: [toPart(placed), toPin(stuck)], data: { volts } };
  });
}
