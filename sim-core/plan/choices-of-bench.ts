/** What a bench with a table is made of, as choices of a new build: its memory, what shows the outputs and how that stands, as far as its plan tells. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { layOut } from '../bench/layout.ts';
import { isRailHole } from '../bench/points.ts';
import { partKind } from '../parts/catalogue.ts';
import { darlingtonArray8 } from '../parts/darlington-array.ts';
import { lampBar } from '../parts/lamp-bar.ts';
import { led } from '../parts/led.ts';
import { octalBuffer } from '../parts/octal-buffer.ts';
import { shapeOf } from '../parts/shapes.ts';
import { type Arrangement, arrangementsFor, lampSpots } from './lamp-spots.ts';
import type { Choices } from './wish-of-table.ts';

export type BenchChoices = Partial<Pick<Choices, 'memory' | 'show' | 'arrangement' | 'buffered'>>;

export function choicesOfBench(plan: Plan): BenchChoices {
  const { wanted } = plan;
  const outputs = wanted?.outputs ?? [];
  const parts = new Map(plan.parts.map((p) => [p.id, p]));
  const kinds = new Set(plan.parts.map((p) => p.kind));
  const memory = parts.get(outputs[0]?.pin.split('.')[0] ?? '');
  const called = new Map(plan.parts.map((p) => [p.label ?? p.id, p]));
  const lamps = outputs.map(({ name, lamp }) => (lamp === undefined ? called.get(name) : parts.get(lamp.split('.')[0] ?? '')));
  const show = showOf(lamps, kinds);
  return {
    ...(memory && partKind(memory.kind)?.group === 'memory' ? { memory: memory.kind } : {}),
    ...(show ? { show } : {}),
    ...(show === 'lamps' ? { arrangement: arrangementOf(plan, lamps) } : {}),
    // what is active low on the memory itself could not be written by hand
    ...(show && show !== 'loads' ? { buffered: kinds.has(octalBuffer.id) || outputs.some((o) => o.activeLow) } : {}),
  };
}

/** undefined: not every output has its lamp, or they are of several sorts. */
function showOf(lamps: readonly (PlanPart | undefined)[], kinds: ReadonlySet<string>): Choices['show'] | undefined {
  const shown = new Set(lamps.map((l) => l?.kind));
  const [kind = ''] = shown;
  if (shown.size !== 1 || partKind(kind)?.group !== 'lamp') return undefined;
  if (kind === lampBar.id) return 'bar';
  if (kind !== led.id) return 'digit';
  return kinds.has(darlingtonArray8.id) ? 'loads' : 'lamps';
}

/** The arrangement whose holes theirs are, wherever it stands on the board. */
function arrangementOf(plan: Plan, lamps: readonly (PlanPart | undefined)[]): Arrangement {
  const layout = layOut(plan, shapeOf);
  const [board] = plan.boards;
  if (!layout.ok || !board) return 'row';
  const holes = lamps.map((lamp) => layout.value.legs.flatMap((l) => (l.part.id === lamp?.id && l.hole ? [l.hole] : [])));
  const is = shapeText(holes.map((legs) => legs.flatMap((h) => (isRailHole(h) ? [] : [[h.row, h.column] as const]))));
  return (
    arrangementsFor(lamps.length).find(
      (a) => is === shapeText(lampSpots(board, a, lamps.length).map((s) => [s.near, s.far].map((l) => [l.row.row, l.column] as const))),
    ) ?? 'row'
  );
}

/** Lamp by lamp, rows counted from the first one that is used. */
function shapeText(lamps: readonly (readonly (readonly [row: number, column: string])[])[]): string {
  const first = Math.min(...lamps.flatMap((legs) => legs.map(([row]) => row)));
  return lamps.map((legs) => legs.map(([row, column]) => `${column}${row - first}`).sort()).join(' ');
}
