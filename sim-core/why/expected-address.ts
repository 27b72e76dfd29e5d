/** The address that the person means by the switches, against the one that the memory reads. */
import { GROUND } from '../devices/network.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import type { ExplanationQuestion, Side } from './explanation-step.ts';
import { feeds } from './pin.ts';

export interface ExpectedPin {
  /** position among the memory's address inputs */
  readonly bit: number;
  readonly leg: ChipSite['inputs'][number]['leg'];
  /** 'hot' */
  readonly name: string;
  readonly contact: ContactSite;
  readonly means: Side;
  /** another pole, to which the pin is really wired */
  readonly wiredTo?: ContactSite;
}

/**
 * For each wanted input on this memory: the switch pole that stands for it and the level it means. A pole that only one input is wired to is its pole.
 * What is left over belongs together in its order on the switch: an input whose wire is missing or went to its neighbour's row, and the unused pole.
 */
export function expectedPins(q: ExplanationQuestion, chip: ChipSite): readonly ExpectedPin[] {
  const { circuit } = q.scene;
  const id = chip.placed.part.id;
  const address = chip.spec.word?.address ?? [];
  const lines = (circuit.plan.wanted?.inputs ?? []).flatMap((w) => {
    const input = chip.inputs.find((i) => `${id}.${i.name}` === w.pin);
    return input ? [{ name: w.name, input, bit: address.indexOf(input.name), wired: poleAt(q, input.node) }] : [];
  });
  const owners = (c: ContactSite | undefined) => lines.filter((l) => l.wired === c).length;
  const settled = lines.filter((l) => l.wired && owners(l.wired) === 1);
  const taken = new Set(settled.map((l) => l.wired));
  const switches = new Set(lines.map((l) => l.wired?.placed));
  const spare = circuit.contacts.filter((c) => switches.has(c.placed) && !taken.has(c));
  if (falling(settled.map((l) => l.wired?.pole ?? 0))) spare.reverse();
  const loose = lines.filter((l) => !settled.includes(l));
  const polarity = lines.flatMap((l) => (l.wired ? [highWhenClosed(q, l.wired, l.input.node)] : []));
  const usual = polarity.filter(Boolean).length * 2 >= polarity.length;
  return lines.flatMap(({ name, input, bit, wired }): ExpectedPin[] => {
    const at = loose.findIndex((l) => l.input === input);
    const contact = at < 0 ? wired : spare.length === loose.length ? spare[at] : wired;
    if (!contact) return [];
    const high = contact === wired ? highWhenClosed(q, contact, input.node) : usual;
    return [
      {
        bit,
        leg: input.leg,
        name,
        contact,
        means: q.scene.closed(contact) === high ? 'high' : 'low',
        ...(wired && wired !== contact ? { wiredTo: wired } : {}),
      },
    ];
  });
}

/** Do the poles run against the order of the inputs? */
const falling = (poles: readonly number[]): boolean => poles.length > 1 && (poles[0] as number) > (poles[poles.length - 1] as number);

function poleAt({ scene: { circuit } }: ExplanationQuestion, node: number): ContactSite | undefined {
  if (node === GROUND) return undefined;
  const net = circuit.netOfNode[node];
  return circuit.contacts.find((c) => !c.contact.momentary && c.legs.some((l) => circuit.netOf(l).index === net));
}

function highWhenClosed(q: ExplanationQuestion, contact: ContactSite, node: number): boolean {
  const net = q.scene.circuit.nets.all[q.scene.circuit.netOfNode[node] ?? -1];
  return net === undefined || !feeds(q, contact, net, 'low');
}
