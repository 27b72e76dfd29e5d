/** The address that the person means by the switches, against the one that the memory reads. */
import { namedPoles } from '../../shared/pole-names.ts';
import { GROUND } from '../devices/network.ts';
import { METAL, reachOf } from '../findings/resistive-reach.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { feeds } from './contact-feeds.ts';
import type { ExplanationQuestion, Side } from './explanation-step.ts';

export interface ExpectedPin {
  /** position among the memory's address inputs */
  readonly bit: number;
  readonly leg: ChipSite['inputs'][number]['leg'];
  /** 'hot' */
  readonly name: string;
  readonly contact: ContactSite;
  readonly highWhenClosed: boolean;
  readonly means: Side;
  /** another pole, to which the pin is really wired */
  readonly wiredTo?: ContactSite;
}

/**
 * For each wanted input on this memory: the switch pole that stands for it and the level it means. A pole that bears the input's name is its pole, and so
 * is one that only this input is wired to. What is left over belongs together in its order on the switch: an input whose wire is missing or went to its
 * neighbour's row, and the unused pole.
 */
export function expectedPins(q: ExplanationQuestion, chip: ChipSite): readonly ExpectedPin[] {
  const { circuit } = q.scene;
  const address = chip.spec.word?.address ?? [];
  const named = namedPoles(circuit.plan);
  const lines = (circuit.plan.wanted?.inputs ?? []).flatMap(({ name, pin }) => {
    const input = chip.inputs.find((i) => i.name === pin.slice(pin.indexOf('.') + 1) && standsFor(circuit, chip, pin));
    const pole = named.get(name.toLowerCase());
    const own = pole && circuit.contactsById.get(pole.part)?.[pole.pole];
    return input ? [{ name, input, own, bit: address.indexOf(input.name), wired: poleAt(q, input.node) }] : [];
  });
  const owners = (c: ContactSite | undefined) => lines.filter((l) => (l.own ?? l.wired) === c).length;
  const settled = lines.filter((l) => l.own || (l.wired && owners(l.wired) === 1));
  const taken = new Set(settled.map((l) => l.own ?? l.wired));
  const switches = new Set(lines.map((l) => l.wired?.placed));
  const spare = circuit.contacts.filter((c) => switches.has(c.placed) && !taken.has(c));
  if (falling(settled.map((l) => (l.own ?? l.wired)?.pole ?? 0))) spare.reverse();
  const loose = lines.filter((l) => !settled.includes(l));
  const polarity = lines.flatMap((l) => highWhenClosed(q, l.own ?? l.wired) ?? []);
  // poles that switch nothing say nothing: closed then means yes
  const usual = polarity.filter(Boolean).length * 2 >= polarity.length;
  return lines.flatMap(({ name, input, own, bit, wired }): ExpectedPin[] => {
    const at = loose.findIndex((l) => l.input === input);
    const contact = own ?? (at < 0 ? wired : spare.length === loose.length ? spare[at] : wired);
    if (!contact) return [];
    const high = highWhenClosed(q, contact) ?? usual;
    return [
      {
        bit,
        leg: input.leg,
        name,
        contact,
        highWhenClosed: high,
        means: q.scene.closed(contact) === high ? 'high' : 'low',
        ...(wired && wired !== contact ? { wiredTo: wired } : {}),
      },
    ];
  });
}

/** Is the wanted input of this pin ('U1.A0') meant for this chip: is it its own, or a memory that holds other outputs of the same table? */
function standsFor({ plan }: Circuit, { placed, spec }: ChipSite, pin: string): boolean {
  const { id } = placed.part;
  if (pin.startsWith(`${id}.`)) return true;
  return spec.word !== undefined && (plan.wanted?.outputs.some((o) => o.pin.startsWith(`${id}.`)) ?? false);
}

/** Do the poles run against the order of the inputs? */
const falling = (poles: readonly number[]): boolean => poles.length > 1 && (poles[0] as number) > (poles[poles.length - 1] as number);

function poleAt({ scene: { circuit } }: ExplanationQuestion, node: number): ContactSite | undefined {
  if (node === GROUND) return undefined;
  const net = circuit.netOfNode[node];
  return circuit.contacts.find((c) => !c.contact.momentary && c.legs.some((l) => circuit.netOf(l).index === net));
}

/** What the metal beyond a pole and the resistor beside it say of it; undefined: nothing, or that it switches nothing. */
function highWhenClosed(q: ExplanationQuestion, contact: ContactSite | undefined): boolean | undefined {
  if (!contact) return undefined;
  const { circuit } = q.scene;
  const reach = reachOf(circuit);
  const nets = contact.legs.map((l) => circuit.netOf(l));
  const joins = (side: Side) => nets.some((net) => feeds(q, contact, net, side));
  const pulled = (ends: ReadonlySet<number>) =>
    nets.some(
      ({ index }) => !ends.has(index) && [...reach.from(index, 'no LEDs', () => true)].some(([n, ohms]) => ohms >= METAL && ends.has(n)),
    );
  const byFeed = joins('high') === joins('low') ? undefined : joins('high');
  const byPull = pulled(reach.minus) === pulled(reach.plus) ? undefined : pulled(reach.minus);
  return byFeed === undefined ? byPull : byPull === undefined || byPull === byFeed ? byFeed : undefined;
}
