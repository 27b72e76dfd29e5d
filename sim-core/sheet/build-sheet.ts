/** The build sheet of a plan as data: parts with values and quantities, what is put down in each stage with the checks at its end, cautions. */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { BOARDS } from '../board/boards.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, Placed } from '../run/circuit/sites.ts';
import { sayCautions, sayHoleNames } from '../text/wiring.ts';
import { colourBands } from '../units/colour-bands.ts';
import { feederOf } from './check-bench.ts';
import { type ProgrammedImage, programmedImages } from './programmed-images.ts';
import type { StageCheck } from './stage-check.ts';
import { stageChecks } from './stage-checks.ts';
import { type StageSteps, stageSteps } from './stage-steps.ts';

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

/** One stage as it is printed: what is put down, in pictures, and the checks at its end. */
export interface SheetStage extends StageSteps {
  readonly checks: readonly StageCheck[];
}

/** Everything that the printed build sheet says, in the order in which it is built. */
export interface BuildSheet {
  readonly parts: readonly PartsLine[];
  readonly stages: readonly SheetStage[];
  readonly cautions: readonly string[];
  /** how the names of holes are read */
  readonly holes: string;
  /** of memories that are fitted with their bytes in them */
  readonly images: readonly ProgrammedImage[];
  /** the supply's plus wire, and the hole that it is pulled out of while resistance is measured; absent: nothing feeds the bench */
  readonly plusWire?: { readonly id: string; readonly hole: string };
}

/**
 * Refused where the plan makes no circuit, or its supplies cannot be measured. Quantities, values and tolerances as the plan has them.
 * Fails with `plan/…`.
 */
export function sheetFor(plan: Plan): Outcome<BuildSheet> {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return circuit;
  const checks = stageChecks(plan);
  if (!checks.ok) return checks;
  return done({
    parts: partsOf(circuit.value),
    stages: stageSteps(circuit.value).map((s) => ({ ...s, checks: checks.value.filter((c) => c.stage === s.stage) })),
    cautions: sayCautions(traitsOf(circuit.value)),
    holes: sayHoleNames(plan.boards.map((b) => b.id)),
    images: programmedImages(circuit.value, plan),
    ...plusWireOf(circuit.value),
  });
}

function plusWireOf({ plan, supplies }: Circuit): Pick<BuildSheet, 'plusWire'> {
  const wire = supplies[0] && feederOf(plan, supplies[0]);
  return wire ? { plusWire: { id: wire.wire.id, hole: wire.hole } } : {};
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
