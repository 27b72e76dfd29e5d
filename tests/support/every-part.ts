/** A bench with every part of the catalogue on it, boards in two columns: for looking at faces, and for the test that none is missing. */
import type { Plan, PlanBoard, PlanPart } from '../../shared/plan.ts';
import { PARTS, type PartKind, readParams } from '../../sim-core/index.ts';

/** Further specimens of a kind, beside the one with its fallback figures. */
const VARIANTS: Readonly<Record<string, readonly NonNullable<PlanPart['params']>[]>> = {
  led: [{ colour: 'green' }, { colour: 'amber' }, { colour: 'blue' }, { colour: 'white' }],
  resistor: [{ ohms: 4700 }, { ohms: 1e6 }],
  electrolytic: [{ farads: 470e-6, volts: 16 }],
  potentiometer: [{ wiper: 0.1 }, { wiper: 0.9 }],
  'led-bar-graph': [{ colour: 'green' }],
};

const ROWS = 63;
/** Boards' distances [pitch]. */
const [COLUMN, LANE] = [70, 24];

interface Want {
  readonly kind: PartKind;
  readonly params: NonNullable<PlanPart['params']>;
}

/** rows that a part takes along the board, and the hole of its pin 1 */
function placing({ kind, params }: Want): { rows: number; at: string; to?: number } | undefined {
  const full = readParams(kind, { id: 'X', kind: kind.id, params });
  if (!full.ok) throw new Error(full.failure.says);
  const f = kind.footprint(full.value);
  if (f.shape === 'off-board') return undefined;
  if (f.shape === 'rows') return { rows: f.pins / 2, at: f.span === 6 ? 'd' : 'e' };
  if (f.shape === 'corners') return { rows: f.length + 1, at: 'e' };
  if (f.shape === 'four-leg') return { rows: 3, at: 'e' };
  if (f.shape === 'in-line') return { rows: f.pins, at: 'c' };
  return { rows: kind.group === 'led' ? 2 : 5, at: 'c', to: kind.group === 'led' ? 1 : 4 };
}

/** Every supply stands above the boards and feeds the rails of the first one. */
export function everyPart(): Plan {
  const wants = PARTS.flatMap((kind): Want[] => [{ kind, params: {} }, ...(VARIANTS[kind.id] ?? []).map((params) => ({ kind, params }))]);
  const boards: PlanBoard[] = [];
  const parts: PlanPart[] = [];
  let row = ROWS + 1;
  let beside = 0;
  for (const [i, want] of wants.entries()) {
    const part = { id: `X${i + 1}`, kind: want.kind.id, params: want.params };
    const place = placing(want);
    if (!place) {
      parts.push({ ...part, spot: [2 + 16 * beside++, -8] });
      continue;
    }
    if (row + place.rows > ROWS) {
      boards.push({
        id: `B${boards.length + 1}`,
        kind: 'board-63',
        spot: [COLUMN * (boards.length % 2), LANE * Math.floor(boards.length / 2)],
        splitRails: false,
      });
      row = 2;
    }
    const on = boards.length === 1 ? '' : `B${boards.length}:`;
    parts.push({
      ...part,
      at: `${on}${place.at}${row}`,
      ...(place.to === undefined ? {} : { to: `${on}${place.at}${row + place.to}` }),
    });
    row += place.rows + 2;
  }
  return {
    format: 'lampwright-plan',
    version: 2,
    title: 'Every part',
    boards,
    parts,
    wires: [],
    memories: {},
    meters: [],
    notes: [],
    switches: {},
  };
}
