/** A relay whose winding is fed through its own closed contact alone: it opens that as it operates, releases, and begins again. */

import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { Branch, ChipSite, CoilSite } from '../../../run/circuit/sites.ts';
import { type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly relay: Ref;
  /** the leg of its contact that its winding is fed through */
  readonly at: Ref;
}

export const ownContact = defineRule<Data>({
  code: 'coil/own-contact',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.coils.flatMap((coil) => {
      const chip = circuit.chipById.get(coil.placed.part.id);
      const through = chip && breaking(circuit, coil, chip);
      return through ? [{ relay: toPart(coil.placed), at: toPin(through.legs[1]) }] : [];
    }),
  message: ({ relay, at }) =>
    say`${relay} breaks its own current: its winding is fed through its closed contact at ${at}, which opens as it operates, so it operates and releases again and again and wears its contacts out. Feed the winding past that contact.`,
});

/** The contact at rest closed without which one end of the winding leads to no supply. */
function breaking(circuit: Circuit, coil: CoilSite, chip: ChipSite): Branch | undefined {
  const net = (leg: Branch['legs'][number]) => circuit.netOf(leg).index;
  const supplied = new Set(circuit.supplies.flatMap((s) => [net(s.plus), net(s.minus)]));
  const own = circuit.branches.filter((b) => chip.contacts.includes(b.device));
  const atRest = own.filter((b) => chip.spec.contacts?.[chip.contacts.indexOf(b.device)]?.atRest);
  const others = circuit.branches.filter((b) => b.device !== coil.device && !own.includes(b) && b.device.kind !== 'capacitor');
  /** what stands beside the winding, a diode, does not feed it: its other end is left out */
  const leads = (leg: Branch['legs'][number], ways: readonly Branch[]) => {
    const other = net(coil.legs[0] === leg ? coil.legs[1] : coil.legs[0]);
    const reached = new Set([net(leg)]);
    for (const here of reached) {
      if (here === other) continue;
      if (supplied.has(here)) return true;
      for (const { legs, whenHigh } of ways) {
        const ends = [...legs, ...(whenHigh ? [whenHigh] : [])].map(net);
        if (ends.includes(here)) for (const end of ends) reached.add(end);
      }
    }
    return false;
  };
  // what its moving contacts could lead to instead counts too: a winding that holds itself is fed on
  const moved = own.filter((b) => !atRest.includes(b));
  const cut = coil.legs.find((leg) => !leads(leg, [...others, ...moved]) && leads(leg, [...others, ...moved, ...atRest]));
  return cut && atRest.find((b) => leads(cut, [...others, ...moved, b]));
}

/** A relay whose winding gets plus from its first contact. */
const bench = (plus: string): string => `${FED}
  wire WA black from -j2 to -a1
  wire WB red from +j2 to +a1
  relay K1 at e15
  wire WC red from a18 to +a18
  wire WK red from ${plus} to b15
  wire WM black from j15 to -j16
  diode D1 from i15 to c15`;

export const ownContactExamples = (): RuleExamples => ({
  bad: { points: 'K1', bench: bench('a20') },
  good: { bench: bench('+a20') },
});
