/** What a pointer or the focus rests on, in plain words, with its nets and its leg or hole. */
import type { Plan } from '../../shared/plan.ts';
import { holeName, type Ref } from '../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../state/bench-model.ts';
import type { Spot } from './geometry.ts';
import type { Drawn } from './highlights.ts';
import type { FoundHole } from './hole-index.ts';

/** Where a pointer or the focus rests. */
export interface Under {
  /** plain name: 'a12', 'W3', 'U1 pin 8 A0', 'vent' */
  readonly name: string;
  readonly nets: readonly number[];
  /** what each net is to it: 'anode'; none where there is but one */
  readonly sides?: readonly string[];
  readonly strips: readonly string[];
  /** a tie point: 'a12' */
  readonly point?: string;
  /** the thing itself, if it is one */
  readonly ref?: Ref;
  /** a leg: 'R1.2' */
  readonly leg?: string;
}

/** A hole as what is under a pointer. */
export function underHole({ name, strip }: FoundHole, model: BenchModel): Under {
  const net = model.nets.ofStrip.get(strip);
  return { name, nets: net ? [net.index] : [], strips: [strip], point: name };
}

/** What carries a name of the bench in its data. */
export const MARKED = '[data-pin], [data-wire], [data-part]';

/** The thing that a drawn element stands for; with a spot, the nearest of its legs or ends. */
export function underElement(data: DOMStringMap, model: BenchModel, drawn: Drawn, spot?: Spot): Under | undefined {
  const { wire, part, pin, led, pins } = data;
  if (wire)
    return {
      name: wire,
      ref: { kind: 'wire', id: wire },
      nets: [model.netOfWire.get(wire) ?? -1],
      strips: [],
      ...nearEnd(wire, model, drawn, spot),
    };
  const s = model.specimen.get(part ?? '');
  if (!s) return undefined;
  const ref = { kind: 'part', id: s.part.id } as const;
  const netOf = (p: string) => model.netOfLeg.get(`${s.part.id}.${p}`) ?? -1;
  if (pin)
    return {
      name: s.supply ? terminalSays(s, pin) : `${s.part.id} pin ${pin} ${s.legs.find((l) => l.pin.pin === pin)?.pin.name ?? ''}`,
      ref,
      nets: [netOf(pin)],
      strips: [],
      leg: `${s.part.id}.${pin}`,
    };
  if (led) {
    const it = s.leds.find((l) => l.led === led);
    return { name: it?.name ?? led, ref, nets: it ? [netOf(it.anode), netOf(it.cathode)] : [], sides: ['anode', 'cathode'], strips: [] };
  }
  if (pins)
    return {
      name: poleSays(s, pins),
      ref,
      nets: pins.split(' ').map(netOf),
      sides: sidesOf(s, pins, model.plan.boards),
      strips: [],
    };
  // a supply's case: its nets are at its posts
  if (s.supply) return { name: `${s.part.label ?? 'bench supply'} ${s.part.id}`, ref, nets: [], strips: [] };
  // a bare body: the leg nearest to the pointer
  const near = [...(drawn.legSpots.get(s.part.id) ?? [])].sort(([, a], [, b]) => away(a, spot) - away(b, spot))[0];
  const pinName = near && s.isChip ? ` pin ${near[0]} ${s.legs.find((l) => l.pin.pin === near[0])?.pin.name ?? ''}` : '';
  return {
    name: `${s.part.id}${s.part.label ? ` ${s.part.label}` : ''}${pinName}`,
    ref,
    nets: near && spot ? [netOf(near[0])] : [...new Set(s.legs.map((l) => l.net))],
    strips: [],
    ...(near && spot ? { leg: `${s.part.id}.${near[0]}` } : {}),
  };
}

/** 'red terminal (+) of PS1', as it is drawn */
const terminalSays = ({ part, supply }: PlacedPart, pin: string): string =>
  `${pin === supply?.plus ? 'red terminal (+)' : 'black terminal (−)'} of ${part.label ?? part.id}`;

/** The two sides of a contact by the holes they are in: 'e30', 'e32'. */
const sidesOf = ({ legs }: PlacedPart, pins: string, boards: Plan['boards']): string[] =>
  pins.split(' ').map((pin) => {
    const hole = legs.find((l) => l.pin.pin === pin)?.hole;
    return hole ? holeName(hole, boards) : `pin ${pin}`;
  });

/** 'sensors pole 4 windy'; a button has but one */
function poleSays({ part, contacts }: PlacedPart, pins: string): string {
  const c = contacts.length > 1 ? contacts.find(({ a, b }) => `${a} ${b}` === pins) : undefined;
  return [part.label ?? part.id, ...(c ? [`pole ${c.pole + 1}`, ...(c.name ? [c.name] : [])] : [])].join(' ');
}

/** The end of a wire that is nearer to a spot, as a tie point. */
function nearEnd(id: string, model: BenchModel, drawn: Drawn, spot: Spot | undefined): { readonly point?: string } {
  const wire = model.plan.wires.find((l) => l.id === id);
  const path = drawn.paths.get(id);
  const [from, to] = [path?.[0], path?.at(-1)];
  if (!wire || !from || !to || !spot) return {};
  return { point: away(from, spot) <= away(to, spot) ? wire.from : wire.to };
}

const away = (a: Spot, b: Spot | undefined) => (b ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0);
