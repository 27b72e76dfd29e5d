/** What a bench with a table is made of, as choices of a new build: its memory, what shows the outputs and how that stands, as far as its plan tells. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { layOut } from '../board/layout.ts';
import { isRailHole } from '../board/tie-points.ts';
import { ledsOfOutput } from '../findings/led-of-output.ts';
import { partKind } from '../parts/catalogue.ts';
import { darlingtonArray8 } from '../parts/darlington-array.ts';
import { shapeOf } from '../parts/footprint-index.ts';
import { led } from '../parts/led.ts';
import { ledBar } from '../parts/led-bar-graph.ts';
import { octalBuffer } from '../parts/octal-buffer.ts';
import { type Arrangement, arrangementsFor, ledSpots } from './led-placement.ts';
import type { Choices } from './request-of-table.ts';

/** The choices of the builder that a bench tells. */
export type BenchChoices = Partial<Pick<Choices, 'memory' | 'show' | 'arrangement' | 'buffered'>>;

/** The choices that would build a bench like this one; what its plan does not tell is left out. */
export function choicesOfBench(plan: Plan): BenchChoices {
  const { wanted } = plan;
  const outputs = wanted?.outputs ?? [];
  const parts = new Map(plan.parts.map((p) => [p.id, p]));
  const kinds = new Set(plan.parts.map((p) => p.kind));
  const memory = parts.get(outputs[0]?.pin.split('.')[0] ?? '');
  const leds = outputs.map((output) => parts.get(ledsOfOutput(plan, output)[0]?.split('.')[0] ?? ''));
  const show = showOf(leds, kinds);
  return {
    ...(memory && partKind(memory.kind)?.group === 'memory' ? { memory: memory.kind } : {}),
    ...(show ? { show } : {}),
    ...(show === 'leds' ? { arrangement: arrangementOf(plan, leds) } : {}),
    // what is active low on the memory itself could not be written by hand
    ...(show && show !== 'loads' ? { buffered: kinds.has(octalBuffer.id) || outputs.some((o) => o.activeLow) } : {}),
  };
}

/** undefined: not every output has its LED, or they are of several sorts. */
function showOf(leds: readonly (PlanPart | undefined)[], kinds: ReadonlySet<string>): Choices['show'] | undefined {
  const shown = new Set(leds.map((l) => l?.kind));
  const [kind = ''] = shown;
  if (shown.size !== 1 || partKind(kind)?.group !== 'led') return undefined;
  if (kind === ledBar.id) return 'bar';
  if (kind !== led.id) return 'digit';
  return kinds.has(darlingtonArray8.id) ? 'loads' : 'leds';
}

/** The arrangement whose holes theirs are, wherever it stands on the board. */
function arrangementOf(plan: Plan, leds: readonly (PlanPart | undefined)[]): Arrangement {
  const layout = layOut(plan, shapeOf);
  const [board] = plan.boards;
  if (!layout.ok || !board) return 'row';
  const holes = leds.map((led) => layout.value.legs.flatMap((l) => (l.part.id === led?.id && l.hole ? [l.hole] : [])));
  const is = shapeText(holes.map((legs) => legs.flatMap((h) => (isRailHole(h) ? [] : [[h.row, h.column] as const]))));
  return (
    arrangementsFor(leds.length).find(
      (a) => is === shapeText(ledSpots(board, a, leds.length).map((s) => [s.near, s.far].map((l) => [l.row.row, l.column] as const))),
    ) ?? 'row'
  );
}

/** LED by LED, rows counted from the first one that is used. */
function shapeText(leds: readonly (readonly (readonly [row: number, column: string])[])[]): string {
  const first = Math.min(...leds.flatMap((legs) => legs.map(([row]) => row)));
  return leds.map((legs) => legs.map(([row, column]) => `${column}${row - first}`).sort()).join(' ');
}
