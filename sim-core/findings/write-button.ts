/** The write network between a button and a memory's strobe, by its metal and its capacitors: whether they belong together, and where charge cannot leave. */
import type { Leg } from '../board/layout.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Branch, ChipInput, ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { blocksOf, isButton } from '../run/circuit/switch-settings.ts';
import { METAL, reachOf } from './resistive-reach.ts';

/** The pin whose pulse writes, as memories' data sheets call it. */
export const STROBE = '/WE';

/** The nets that metal joins to this leg while every contact is open. */
function metalOf(circuit: Circuit, leg: Leg): ReadonlySet<number> {
  const near = reachOf(circuit).from(circuit.netOf(leg).index, 'no LEDs', () => true);
  return new Set([...near].filter(([, ohms]) => ohms < METAL).map(([net]) => net));
}

const netsOf = (circuit: Circuit, { legs }: Branch): readonly number[] => legs.map((l) => circuit.netOf(l).index);

/** Capacitors with a side on this button. */
function capacitorsOf(circuit: Circuit, button: ContactSite): readonly Branch[] {
  const sides = button.legs.map((l) => metalOf(circuit, l));
  return circuit.branches.filter(
    (b) =>
      b.device.kind === 'capacitor' && b.placed.kind.group === 'passive' && netsOf(circuit, b).some((n) => sides.some((s) => s.has(n))),
  );
}

/** Does this button reach the strobe, by metal or through a capacitor? */
export function pulses(circuit: Circuit, button: ContactSite, strobe: ChipInput): boolean {
  const own = metalOf(circuit, strobe.leg);
  return (
    button.legs.some((leg) => [...metalOf(circuit, leg)].some((n) => own.has(n))) ||
    capacitorsOf(circuit, button).some((c) => netsOf(circuit, c).some((n) => own.has(n)))
  );
}

/** Are both sides of the button one piece of metal? */
export function sidesTouch(circuit: Circuit, { legs: [a, b] }: ContactSite): boolean {
  const near = metalOf(circuit, a);
  return [...metalOf(circuit, b)].some((n) => near.has(n));
}

/** A capacitor beside this button and its leg from which no resistor leads anywhere while every contact is open: it keeps what it was charged to. */
export function neverDischarged(circuit: Circuit, button: ContactSite): readonly { readonly capacitor: Branch; readonly stuck: Leg }[] {
  const reach = reachOf(circuit);
  return capacitorsOf(circuit, button).flatMap((capacitor) => {
    const stuck = capacitor.legs.find((leg) => {
      const all = reach.from(circuit.netOf(leg).index, 'no LEDs', () => true);
      const supplied = [...all.keys()].some((n) => reach.plus.has(n) || reach.minus.has(n));
      return !supplied && !capacitor.legs.every((other) => all.has(circuit.netOf(other).index));
    });
    return stuck ? [{ capacitor, stuck }] : [];
  });
}

/** Is this memory to be written on the bench? A button reaches one of its control inputs, past other chips too. */
export function isWrittenByHand(circuit: Circuit, memory: ChipSite): boolean {
  const control = memory.inputs.filter((i) => i.name in (memory.spec.toRead ?? {})).map((i) => i.leg);
  const reached = blocksOf(circuit, control);
  const others = new Set(circuit.chips.filter((c) => c !== memory && !c.spec.word));
  // a Set goes on with what is added meanwhile
  for (const block of reached)
    for (const chip of others) {
      if (!chip.outputs.some((o) => blocksOf(circuit, [o.leg]).has(block))) continue;
      others.delete(chip);
      for (const b of blocksOf(
        circuit,
        chip.inputs.map((i) => i.leg),
      ))
        reached.add(b);
    }
  return circuit.contacts.some((c) => isButton(c) && [...blocksOf(circuit, c.legs)].some((b) => reached.has(b)));
}
