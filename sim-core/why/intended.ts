/** The address that the person means by the switches, against the one that the memory reads. */
import { GROUND } from '../devices/network.ts';
import type { ChipSite, ContactSite } from '../run/circuit.ts';
import type { Question, Side } from './account.ts';
import { feeds } from './pin.ts';

export interface IntendedPin {
  /** position among the memory's address inputs */
  readonly bit: number;
  readonly leg: ChipSite['inputs'][number]['leg'];
  /** 'hot' */
  readonly name: string;
  readonly contact: ContactSite;
  readonly means: Side;
}

/**
 * For each wanted input on this memory: the switch pole that stands for it and the level it means. A pole that is wired to the pin is its pole;
 * where one input and one pole of the same switch are left over, they belong together although the lead between them is missing or misplaced.
 */
export function intendedPins(q: Question, chip: ChipSite): readonly IntendedPin[] {
  const { circuit } = q.scene;
  const id = chip.placed.part.id;
  const wanted = (circuit.plan.wanted?.inputs ?? []).filter((w) => w.pin.startsWith(`${id}.`));
  const address = chip.spec.word?.address ?? [];
  const lines = wanted.flatMap((w) => {
    const input = chip.inputs.find((i) => `${id}.${i.name}` === w.pin);
    return input ? [{ name: w.name, input, bit: address.indexOf(input.name), contact: poleAt(q, input.node) }] : [];
  });
  const used = new Set(lines.map((l) => l.contact));
  const switches = new Set(lines.map((l) => l.contact?.placed));
  const spare = circuit.contacts.filter((c) => switches.has(c.placed) && !used.has(c));
  const without = lines.filter((l) => !l.contact);
  const polarity = lines.flatMap((l) => (l.contact ? [highWhenClosed(q, l.contact, l.input.node)] : []));
  const usual = polarity.filter(Boolean).length * 2 >= polarity.length;
  return lines.flatMap(({ name, input, bit, contact }): IntendedPin[] => {
    const own = contact ?? (spare.length === without.length ? spare[without.findIndex((l) => l.input === input)] : undefined);
    if (!own) return [];
    const high = contact ? highWhenClosed(q, contact, input.node) : usual;
    return [{ bit, leg: input.leg, name, contact: own, means: q.scene.closed(own) === high ? 'high' : 'low' }];
  });
}

function poleAt({ scene: { circuit } }: Question, node: number): ContactSite | undefined {
  if (node === GROUND) return undefined;
  const net = circuit.netOfNode[node];
  return circuit.contacts.find((c) => !c.contact.momentary && c.legs.some((l) => circuit.netOf(l).index === net));
}

function highWhenClosed(q: Question, contact: ContactSite, node: number): boolean {
  const net = q.scene.circuit.nets.all[q.scene.circuit.netOfNode[node] ?? -1];
  return net === undefined || !feeds(q, contact, net, 'low');
}
