/** What one part brings to a circuit, by its legs: found once, however often the part is wired otherwise. */
import type { PlanPart } from '../../../shared/plan.ts';
import type { Leg } from '../../board/layout.ts';
import type { Supply } from '../../devices/device-models.ts';
import { Network, type Node } from '../../devices/network.ts';
import { connectPart, placePart } from '../circuit/circuit.ts';
import type { PartOverrides } from '../circuit/part-overrides.ts';
import { makeSiteBuilder } from '../circuit/site-builder.ts';
import type { ChipInput, ChipSite, Placed } from '../circuit/sites.ts';

/** One primitive between legs, by their places; the text says all else that makes it what it is. */
export interface PartElement {
  readonly legs: Int32Array;
  readonly text: number;
}

export interface PartElements {
  readonly placed: Placed;
  /** by leg: the number of its strip */
  readonly strips: Int32Array;
  readonly elements: readonly PartElement[];
  /** by pole */
  readonly contacts: readonly { readonly pole: number; readonly legs: readonly [number, number] }[];
  readonly supplies: readonly { readonly legs: readonly [number, number]; readonly model: Supply }[];
  readonly leds: readonly { readonly id: string; readonly legs: readonly [number, number] }[];
  readonly chips: readonly PartChip[];
  /** false: it has nodes inside, a transistor, or contacts that it moves itself */
  readonly isPlain: boolean;
}

/** Nodes of the site are places of legs. */
export interface PartChip {
  readonly site: ChipSite;
  /** by input: all that makes it what it is */
  readonly inputs: readonly number[];
  readonly outputs: readonly number[];
  /** by input and by output: 1 where its bond is burnt open, so that it reads X, or pulls nothing */
  readonly deaf: Uint8Array;
  readonly mute: Uint8Array;
  /** supply voltages at whose crossing it does something else, and the lowest of those at which it is told, from which on it may do anything [V] */
  readonly marks: readonly number[];
  readonly wakes: number;
}

/** Numbers that stand for texts, from 0 on. */
export class Texts {
  private readonly numbers = new Map<string, number>();

  get count(): number {
    return this.numbers.size;
  }

  of(text: string): number {
    let number = this.numbers.get(text);
    if (number === undefined) {
      number = this.numbers.size;
      this.numbers.set(text, number);
    }
    return number;
  }
}

/** All parts of a bench and of its variants. */
export class ElementsOfParts {
  private readonly known = new WeakMap<PlanPart, PartElements>();

  constructor(
    private readonly drive: 'typical' | 'guaranteed',
    private readonly specimens: PartOverrides | undefined,
    private readonly texts: Texts,
    private readonly strips: Texts,
  ) {}

  /** Its legs are those from one place to another. */
  of(part: PlanPart, legs: readonly Leg[], from: number, to: number): PartElements {
    const known = this.known.get(part);
    // it is laid out once for the same boards, with the same legs
    if (known && known.placed.legs[0] === legs[from]) return known;
    const made = this.make(placePart(part, legs.slice(from, to), this.specimens));
    this.known.set(part, made);
    return made;
  }

  private make(placed: Placed): PartElements {
    const { texts } = this;
    const network = new Network(placed.legs.length);
    const place = new Map<Leg, Node>(placed.legs.map((leg, i) => [leg, i]));
    const builder = makeSiteBuilder(network, this.drive, (leg) => place.get(leg) as Node, this.specimens !== undefined);
    connectPart(builder.wiringFor(placed), placed, this.specimens);
    const { contacts, supplies, leds, chips, coils, branches } = builder.sites;
    const isPlain =
      coils.length + builder.innerNodes.length === 0 &&
      branches.every(({ device: { kind } }) => kind !== 'collector' && kind !== 'base') &&
      chips.every((c) => c.contacts.length === 0);
    network.seal();
    const varies = new Map(contacts.map((c) => [c.device.index, `contact ${c.contact.on} ${c.contact.off}`]));
    const elements = isPlain ? [...network.described(varies)].filter(({ text }) => !/^(capacitor|supply) /.test(text)) : [];
    const ends = (device: Parameters<Network['nodesOf']>[0]) => network.nodesOf(device);
    return {
      placed,
      strips: Int32Array.from(placed.legs, (leg) => this.strips.of(leg.strip)),
      elements: [
        ...elements.map(({ nodes, text }) => ({ legs: Int32Array.from(nodes), text: texts.of(text) })),
        ...leds.map(({ device, led }) => ({ legs: Int32Array.from(ends(device)), text: texts.of(`led ${led.mostCurrent.value}`) })),
      ],
      contacts: contacts.map(({ device, pole }) => ({ pole, legs: ends(device) })),
      supplies: supplies.map(({ device }) => ({ legs: ends(device), model: network.supplyOf(device) })),
      leds: leds.map(({ device, id }) => ({ id, legs: ends(device) })),
      chips: chips.map((site) => ({
        site,
        inputs: site.inputs.map((input) => texts.of(`input ${describeInput(site, input)}`)),
        outputs: site.outputs.map((o) => texts.of(`pulls ${o.bleed} ${site.spec.released.leakage}`)),
        deaf: Uint8Array.from(site.inputs, ({ name }) => (site.burnt.has(name) ? 1 : 0)),
        mute: Uint8Array.from(site.outputs, ({ name }) => (site.burnt.has(name) ? 1 : 0)),
        marks: [...site.spec.supplyMarks, site.certainFrom],
        wakes: Math.min(...site.spec.supplyMarks),
      })),
      isPlain,
    };
  }
}

/** An input, and whether an output is at the same pin. */
const describeInput = ({ outputs }: ChipSite, { name, figures, of }: ChipInput): string =>
  `${JSON.stringify(figures)} ${of !== undefined} ${outputs.some((o) => o.name === name)}`;
