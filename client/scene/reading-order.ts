/** The bench as it is read aloud: in which order its parts come, and what those that no hand works are called. */
import type { PlanBoard } from '../../shared/plan.ts';
import { holeName, holeSpot } from '../../sim-core/index.ts';
import type { PlacedPart } from '../state/bench-model.ts';
import type { Face } from './faces/face.ts';

/** What stands beside the boards first, so that a supply's switch is the first thing a keyboard reaches; then board by board, along the rows. */
export function readingOrder(specimens: readonly PlacedPart[], boards: readonly PlanBoard[]): PlacedPart[] {
  const place = (s: PlacedPart): readonly [board: number, along: number, across: number] => {
    const hole = s.legs.find((l) => l.hole)?.hole;
    return hole ? [boards.findIndex((b) => b.id === hole.board.id), ...holeSpot(hole)] : [-1, 0, 0];
  };
  const placed = specimens.map((s) => ({ s, at: place(s) }));
  placed.sort(({ at: a }, { at: b }) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2]);
  return placed.map(({ s }) => s);
}

/** A body without a control of its own is read as a picture: "R3 pull-up, Resistor 10 kΩ, a3 to -a2". */
export function nameBody(s: PlacedPart, { body, over }: Face, boards: readonly PlanBoard[]): void {
  if (body.hasAttribute('role') || body.querySelector('[role]') || over) return;
  const holes = s.legs.flatMap(({ hole }) => (hole ? [holeName(hole, boards)] : []));
  const value = s.kind.value?.(s.params);
  const name = [
    s.part.label ? `${s.part.id} ${s.part.label}` : s.part.id,
    [s.kind.title, value].filter(Boolean).join(' '),
    holes.join(' to '),
  ];
  body.setAttribute('role', 'img');
  body.setAttribute('aria-label', name.filter(Boolean).join(', '));
}

export const wiresSay = (wires: number): string =>
  wires === 0 ? 'No wires' : `${wires === 1 ? '1 wire' : `${wires} wires`}; the Wires list reads them one by one`;
