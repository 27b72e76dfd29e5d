/** Why no write has come to a memory: it is not selected, or what its buttons do to it, tried on a copy of the bench, and what keeps them from doing it. */

import type { Leg } from '../board/layout.ts';
import { METAL, reachOf } from '../findings/resistive-reach.ts';
import { toPart, toPin } from '../findings/rule.ts';
import type { Branch, ChipInput, ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { simulate } from '../run/simulation.ts';
import type { Chain, Reason } from './answer.ts';
import type { ExplanationQuestion } from './explanation-step.ts';
import { whyInput, whyOutput } from './output.ts';
import { whyPin } from './pin.ts';
import { levelOf } from './pin-level.ts';

/** How long a finger stays on a button, and how long it is away between two presses [s]; common practice, no source. */
const FINGER = 0.1;
const AWAY = 0.5;
/** Buttons that are tried. */
const MOST_TRIED = 8;

export function whyNoPulse(q: ExplanationQuestion, chip: ChipSite): Chain {
  const at = [toPart(chip.placed)];
  const none: Reason = { code: 'write-none', at, data: {} };
  const strobe = chip.inputs.find((i) => i.name === '/WE');
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
function whatIsAmiss(q: ExplanationQuestion, strobe: ChipInput, button: ContactSite): readonly Reason[] {
  const { circuit } = q.scene;
  const [a, b] = button.legs.map((l) => metalOf(q, l)) as [ReadonlySet<number>, ReadonlySet<number>];
  const own = metalOf(q, strobe.leg);
  const capacitors = circuit.branches.filter(
    ({ device, placed, legs }) =>
      device.kind === 'capacitor' &&
      placed.kind.group === 'passive' &&
      legs.some((l) => a.has(circuit.netOf(l).index) || b.has(circuit.netOf(l).index)),
  );
  const isBeside = (nets: ReadonlySet<number>) =>
    [...nets].some((n) => own.has(n)) || capacitors.some(({ legs }) => legs.some((l) => own.has(circuit.netOf(l).index)));
  if (!isBeside(a) && !isBeside(b)) return [];
  if ([...a].some((n) => b.has(n))) return [{ code: 'button-one-net', at: [toPart(button.placed), ...button.legs.map(toPin)], data: {} }];
  return capacitors.flatMap((c) => neverDischarged(q, c));
}

/** The nets that metal joins to this leg while every contact is open. */
function metalOf({ scene: { circuit } }: ExplanationQuestion, leg: Leg): ReadonlySet<number> {
  const near = reachOf(circuit).from(circuit.netOf(leg).index, 'no LEDs', () => true);
  return new Set([...near].filter(([, ohms]) => ohms < METAL).map(([net]) => net));
}

/** A capacitor with a side from which no resistor leads anywhere while every contact is open. */
function neverDischarged(q: ExplanationQuestion, { placed, legs }: Branch): readonly Reason[] {
  const { circuit, at } = q.scene;
  const volts = Math.abs(at(circuit.netOf(legs[0]).index) - at(circuit.netOf(legs[1]).index));
  const reach = reachOf(circuit);
  const stuck = legs.find((l) => {
    const all = reach.from(circuit.netOf(l).index, 'no LEDs', () => true);
    const supplied = [...all.keys()].some((n) => reach.plus.has(n) || reach.minus.has(n));
    const across = legs.every((other) => all.has(circuit.netOf(other).index));
    return !supplied && !across;
  });
  return stuck ? [{ code: 'never-discharged', at: [toPart(placed), toPin(stuck)], data: { volts } }] : [];
}
