/** The build sheet of a plan as data: parts with values and quantities, places and wires in building order, measurements before power, cautions. */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { BOARDS } from '../board/boards.ts';
import { holeName } from '../board/tie-points.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, Placed } from '../run/circuit/sites.ts';
import { sayCautions, sayConnection } from '../text/wiring.ts';
import { colourBands } from '../units/colour-bands.ts';
import { type PowerCheck, powerChecks } from './power-checks.ts';
import { SECTIONS, type Section, WiringOrder } from './wiring-order.ts';

/** A line of the parts list: how many, what, which value, and the ids on the plan. */
export interface PartsLine {
  readonly quantity: number;
  readonly title: string;
  /** '330 Ω', 'red'; absent: it has none */
  readonly value?: string;
  /** of its value [%] */
  readonly tolerance?: number;
  /** colour bands of a resistor, in reading order */
  readonly bands?: readonly string[];
  readonly ids: readonly string[];
}

/** A line of the wiring list: a part to place, or a wire with its two ends and its purpose. */
export type WiringLine =
  | { readonly put: 'part'; readonly id: string; readonly says: string; readonly at: string; readonly to?: string }
  | {
      readonly put: 'wire';
      readonly id: string;
      readonly colour: string;
      readonly from: string;
      readonly to: string;
      readonly says: string;
    };

/** The lines that are wired together, such as power, enables or inputs. */
export interface WiringSection {
  readonly section: Section;
  readonly lines: readonly WiringLine[];
}

/** Everything that the printed build sheet says, in the order in which it is built. */
export interface BuildSheet {
  readonly parts: readonly PartsLine[];
  readonly wiring: readonly WiringSection[];
  readonly checks: readonly PowerCheck[];
  readonly cautions: readonly string[];
}

/**
 * Refused where the plan makes no circuit, or its supplies cannot be measured. Quantities, values and tolerances as the plan has them.
 * Fails with `plan/…`.
 */
export function sheetFor(plan: Plan): Outcome<BuildSheet> {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return circuit;
  const checks = powerChecks(plan);
  if (!checks.ok) return checks;
  return done({
    parts: partsOf(circuit.value),
    wiring: wiringOf(circuit.value),
    checks: checks.value,
    cautions: sayCautions(traitsOf(circuit.value)),
  });
}

function partsOf({ plan, placed }: Circuit): readonly PartsLine[] {
  const lines = new Map<string, { line: Omit<PartsLine, 'quantity' | 'ids'>; ids: string[] }>();
  const add = (line: Omit<PartsLine, 'quantity' | 'ids'>, id: string) => {
    const key = JSON.stringify(line);
    const there = lines.get(key);
    if (there) there.ids.push(id);
    else lines.set(key, { line, ids: [id] });
  };
  for (const b of plan.boards) add({ title: BOARDS[b.kind].title }, b.id);
  for (const p of [...placed.values()].sort((a, b) => GROUPS.indexOf(a.kind.group) - GROUPS.indexOf(b.kind.group)))
    add(lineFor(p), p.part.id);
  for (const l of plan.wires) add({ title: 'Wire', value: l.colour }, l.id);
  return [...lines.values()].map(({ line, ids }) => ({ ...line, quantity: ids.length, ids }));
}

/** In the order of a parts list. */
const GROUPS: readonly Placed['kind']['group'][] = ['supply', 'memory', 'logic', 'switch', 'led', 'passive'];

function lineFor({ kind, params }: Placed): Omit<PartsLine, 'quantity' | 'ids'> {
  const value = kind.value?.(params);
  const tolerance = kind.spread && params.tolerance !== undefined ? Number(params.tolerance) : undefined;
  const ohms = kind.spread?.of === 'ohms' && kind.footprint(params).shape === 'two-leg' ? Number(params.ohms) : undefined;
  return {
    title: kind.title,
    ...(value === undefined ? {} : { value }),
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(ohms === undefined ? {} : { bands: colourBands(ohms, tolerance ?? 0) }),
  };
}

function wiringOf(circuit: Circuit): readonly WiringSection[] {
  const { plan } = circuit;
  const order = new WiringOrder(circuit);
  const lines = new Map<Section, WiringLine[]>(SECTIONS.map((s) => [s, []]));
  for (const p of circuit.placed.values()) lines.get(order.sectionOfPart(p))?.push(partLine(p, circuit));
  for (const wire of plan.wires)
    lines.get(order.sectionOfWire(wire))?.push({
      put: 'wire',
      id: wire.id,
      colour: wire.colour,
      from: wire.from,
      to: wire.to,
      says: sayConnection(order.endOf(wire, 'from'), order.endOf(wire, 'to')),
    });
  return SECTIONS.map((section) => ({ section, lines: lines.get(section) ?? [] })).filter((s) => s.lines.length > 0);
}

function partLine({ part, kind, params, legs }: Placed, { plan }: Circuit): WiringLine {
  const [first] = legs;
  const last = legs.length === 2 ? legs[1] : undefined;
  const value = kind.value?.(params);
  const name = (hole: NonNullable<typeof first>['hole']) => (hole ? holeName(hole, plan.boards) : 'beside the boards');
  return {
    put: 'part',
    id: part.id,
    says: [kind.title, value, part.label].filter(Boolean).join(', '),
    at: first ? name(first.hole) : 'beside the boards',
    ...(last?.hole ? { to: name(last.hole) } : {}),
  };
}

/** A supply pin beside the chip's own that bears more than it. */
function hasProgrammingSupply({ placed: { kind, params }, spec }: ChipSite): boolean {
  const roles = new Map(kind.pins(params).map((p) => [p.name, p.role]));
  return spec.word !== undefined && Object.keys(spec.mostVolts ?? {}).some((name) => roles.get(name) === 'supply');
}

function traitsOf({ chips: all, leds, supplies, placed, coils }: Circuit): Parameters<typeof sayCautions>[0] {
  const [supply] = supplies;
  const chips = all.filter((c) => c.contacts.length === 0);
  const of = (test: (p: Placed) => boolean) => [...placed.values()].filter(test).map((p) => p.part.id);
  return {
    volts: Number(supply?.placed.params.volts ?? 0),
    amps: Number(supply?.placed.params.amps ?? 0),
    chips: chips.map((c) => c.placed.part.id),
    leds: leds.length > 0,
    coils: coils.map((c) => c.placed.part.id),
    relays: all.filter((c) => c.contacts.length > 0).map((c) => c.placed.part.id),
    motors: coils.filter((c) => c.turning).map((c) => c.placed.part.id),
    polarised: of((p) => p.kind.polar !== undefined),
    windows: of((p) => p.kind.figures.some((f) => f.unit === 'W·s/cm²')),
    highVoltage: chips.filter(hasProgrammingSupply).map((c) => c.placed.part.id),
  };
}
