/** What is put down in each stage, in order: its parts, each with where its legs go and which way round it stands, then its wires, numbered bus by bus. */
import type { PlanWire } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import { holeName } from '../board/tie-points.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Placed } from '../run/circuit/sites.ts';
import { isButton } from '../run/circuit/switch-settings.ts';
import { type EndOfWire, type Stance, sayConnection, sayStance } from '../text/wiring.ts';
import { colourBands } from '../units/colour-bands.ts';
import { compareCounting } from '../units/text-list.ts';
import { STAGES, type StageName, stagesOfThings } from './stages.ts';
import { WiringOrder } from './wiring-order.ts';

/** One thing to put down: a part with all its legs, or a wire. Places are tie points or terminals. */
export type StageStep =
  | {
      readonly put: 'part';
      readonly id: string;
      /** 'Resistor', its value and its colour bands, and what it is called */
      readonly title: string;
      readonly value?: string;
      readonly bands?: readonly string[];
      readonly label?: string;
      /** its legs in order of pin number; none: it stands beside the boards */
      readonly places: readonly string[];
      readonly says: string;
    }
  | {
      readonly put: 'wire';
      readonly id: string;
      /** from 1 in each stage, in the order of this list */
      readonly number: number;
      readonly colour: string;
      readonly places: readonly [string, string];
      readonly says: string;
    };

/** A stage with what is put down in it; wires in groups of one picture each. */
export interface StageSteps {
  readonly stage: StageName;
  readonly steps: readonly StageStep[];
  /** ids of the wires of each picture; the parts are on the first */
  readonly pictures: ReadonlyArray<readonly string[]>;
}

/** New wires that a picture shows at most. */
const MOST_WIRES = 16;

/** circuit: of the whole bench. Stages in which nothing is put down are left out. */
export function stageSteps(circuit: Circuit): readonly StageSteps[] {
  const order = new WiringOrder(circuit);
  const stages = stagesOfThings(circuit, order);
  return STAGES.flatMap((stage): StageSteps[] => {
    const isHere = ({ id }: { readonly id: string }) => stages.get(id) === stage;
    const parts = [...circuit.placed.values()].filter((p) => isHere(p.part)).map((p) => partStep(p, circuit, order));
    const wires = busByBus(circuit.plan.wires.filter(isHere), order);
    const steps = [...parts, ...wires.map((w, i) => wireStep(w, i + 1, order))];
    return steps.length === 0 ? [] : [{ stage, steps, pictures: inPictures(wires.map((w) => w.id)) }];
  });
}

/** As few pictures as take so many, all about as full. */
function inPictures(ids: readonly string[]): ReadonlyArray<readonly string[]> {
  const pictures = Math.max(1, Math.ceil(ids.length / MOST_WIRES));
  const begin = (k: number) => Math.round((k * ids.length) / pictures);
  return Array.from({ length: pictures }, (_, k) => ids.slice(begin(k), begin(k + 1)));
}

/** Wires between the same two things are one bus, in order of their pins; buses in the order of their first wires. */
function busByBus(wires: readonly PlanWire[], order: WiringOrder): readonly PlanWire[] {
  const buses = new Map<string, { readonly wire: PlanWire; readonly key: string }[]>();
  for (const wire of wires) {
    const ends = [order.endOf(wire, 'from'), order.endOf(wire, 'to')];
    const bus = ends.map(busEnd).sort().join(' ');
    const key = ends.map(placeInBus).sort().join(' ');
    buses.set(bus, [...(buses.get(bus) ?? []), { wire, key }]);
  }
  return [...buses.values()].flatMap((bus) => bus.toSorted((a, b) => compareCounting(a.key, b.key)).map((b) => b.wire));
}

function busEnd(end: EndOfWire): string {
  if (end.is === 'rail') return end.sign;
  if (end.is === 'row') return '';
  // a row of LEDs is one bus, and so is a switch
  return end.is === 'part' ? end.part.replace(/\d+$/, '') : end.part;
}

function placeInBus(end: EndOfWire): string {
  if (end.is === 'pin') return `0 ${end.name}`;
  if (end.is === 'pole') return `1 ${end.pole}`;
  return end.is === 'part' ? `2 ${end.part} ${end.pin ?? ''}` : '3';
}

const wireStep = (wire: PlanWire, number: number, order: WiringOrder): StageStep => ({
  put: 'wire',
  id: wire.id,
  number,
  colour: wire.colour,
  places: [wire.from, wire.to],
  says: sayConnection(order.endOf(wire, 'from'), order.endOf(wire, 'to')),
});

function partStep(placed: Placed, circuit: Circuit, order: WiringOrder): StageStep {
  const { part, kind, params, legs } = placed;
  const value = kind.value?.(params);
  const ohms = kind.spread?.of === 'ohms' && kind.footprint(params).shape === 'two-leg' ? Number(params.ohms) : undefined;
  return {
    put: 'part',
    id: part.id,
    title: kind.title,
    ...(value === undefined ? {} : { value }),
    ...(ohms === undefined ? {} : { bands: colourBands(ohms, Number(params.tolerance ?? 0)) }),
    ...(part.label === undefined ? {} : { label: part.label }),
    places: legs.flatMap((l) => (l.hole ? [holeName(l.hole, circuit.plan.boards)] : [])),
    says: sayStance(stanceOf(placed, circuit, order)),
  };
}

function stanceOf({ part, kind, params, legs }: Placed, circuit: Circuit, order: WiringOrder): Stance {
  const { shape } = kind.footprint(params);
  const hole = (leg: Leg | undefined) => (leg?.hole ? holeName(leg.hole, circuit.plan.boards) : '');
  if (shape === 'off-board') return { is: 'beside the boards' };
  if (shape === 'two-leg')
    return {
      is: 'two-leg',
      legs: legs.map((leg) => {
        const name = order.nameOf(leg);
        return { ...(name === leg.pin ? {} : { name }), hole: hole(leg), to: order.reachedBy(leg) };
      }),
    };
  if (shape === 'in-line') return { is: 'in line', legs: legs.map((leg) => ({ name: order.nameOf(leg), hole: hole(leg) })) };
  const contacts = circuit.contactsById.get(part.id) ?? [];
  if (shape === 'four-leg' && contacts.some((c) => isButton(c))) {
    const [a, b, c, d] = legs.map(hole);
    return { is: 'button', pairs: [[a ?? '', d ?? ''] as const, [b ?? '', c ?? ''] as const] };
  }
  const mark =
    contacts.length > 0
      ? 'poles'
      : kind.group === 'led'
        ? circuit.leds.some((l) => l.id === `${part.id}.g`)
          ? 'display'
          : 'pin 1'
        : 'notch';
  return { is: 'rows', first: hole(legs[0]), opposite: hole(legs.at(-1)), left: part.rotated !== true, mark };
}
