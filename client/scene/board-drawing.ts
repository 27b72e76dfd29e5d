/** One board: its case, trench, rails, holes, row numbers and column letters. Drawn once, never touched again. */
import type { PlanBoard } from '../../shared/plan.ts';
import { BOARDS, boardSize, holeSpot, holesOf, isRailHole, LINE_Y, LOWER, RAILS, railX, UPPER } from '../../sim-core/index.ts';
import { type Box, U } from './geometry.ts';
import { el, short } from './svg.ts';

export function boardBox(board: PlanBoard): Box {
  const size = boardSize(BOARDS[board.kind]);
  return { ...size, x: size.x + board.spot[0], y: size.y + board.spot[1] };
}

export function drawBoard(board: PlanBoard): SVGGElement {
  const kind = BOARDS[board.kind];
  const [x0, y0] = board.spot;
  const box = boardBox(board);
  const x = (pitch: number) => (x0 + pitch) * U;
  const y = (pitch: number) => (y0 + pitch) * U;
  const half = (side: number, rail: boolean) => {
    const d: string[] = [];
    for (const hole of holesOf(board)) {
      if (isRailHole(hole) !== rail) continue;
      const [hx, hy] = holeSpot(hole);
      d.push(`M${short(hx * U - side)} ${short(hy * U - side)}h${2 * side}v${2 * side}h${-2 * side}z`);
    }
    return d.join('');
  };
  const railLines = RAILS.flatMap((rail) => {
    const plus = rail.startsWith('+');
    const lineY = y(LINE_Y[rail] + (plus ? -0.62 : 0.62));
    const ends = [railX(kind, 1) - 0.6, railX(kind, kind.railHoles) + 0.6] as const;
    const middle = (railX(kind, kind.railHoles / 2) + railX(kind, kind.railHoles / 2 + 1)) / 2;
    const pieces = board.splitRails
      ? ([
          [ends[0], middle - 0.7],
          [middle + 0.7, ends[1]],
        ] as const)
      : ([ends] as const);
    return [
      ...pieces.map(([from, to]) => el('path', { d: `M${x(from)} ${lineY}H${x(to)}`, class: plus ? 'rail-plus' : 'rail-minus' })),
      // beside the line, and on the board where it reaches nearly to the edge
      ...[ends[0] - 0.75, Math.min(ends[1] + 0.75, box.x + box.width - x0 - 0.5)].map((at) =>
        el(
          'text',
          { x: x(at), y: y(LINE_Y[rail]) + 5, class: plus ? 'rail-sign rail-sign-plus' : 'rail-sign rail-sign-minus' },
          plus ? '+' : '−',
        ),
      ),
    ];
  });
  const numbers = Array.from({ length: kind.rows }, (_, i) => i + 1).flatMap((row) =>
    // midway between the holes and the rail's line
    [2.28, 14.72].map((at) =>
      el('text', { x: x(row), y: y(at), class: row === 1 || row % 5 === 0 ? 'row-number' : 'row-number near' }, String(row)),
    ),
  );
  const letters = [...LOWER, ...UPPER].flatMap((column) =>
    [0.1, kind.rows + 0.9].map((at) => el('text', { x: x(at), y: y(LINE_Y[column]), class: 'column-letter' }, column)),
  );
  return el(
    'g',
    { class: 'board' },
    el('rect', { x: box.x * U, y: box.y * U + 3, width: box.width * U, height: box.height * U, rx: 10, class: 'board-shadow' }),
    el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 10, class: 'board-case' }),
    el('rect', { x: x(0.4), y: y(8.1), width: (kind.rows + 0.2) * U, height: 0.8 * U, rx: 4, class: 'trench' }),
    ...railLines,
    el('path', { d: half(2.7, true) + half(2.7, false), class: 'holes' }),
    ...numbers,
    ...letters,
  );
}
