/** Free holes near a place: where a leg or a wire could go instead. */
import type { Layout } from '../board/layout.ts';
import { holeName, holesOf, stripOf } from '../board/tie-points.ts';
import type { Circuit } from '../run/circuit/circuit.ts';

/** The first free hole of a strip by name, or undefined if the strip is full or off the boards. */
export function freeHole({ plan, taken }: Layout, strip: string): string | undefined {
  for (const board of plan.boards) {
    if (!strip.startsWith(`${board.id}/`)) continue;
    for (const hole of holesOf(board)) {
      const name = holeName(hole, plan.boards);
      if (stripOf(hole) === strip && !taken.has(name)) return name;
    }
  }
  return undefined;
}

/** Free hole of a rail of this net: of the same rail as `strip` if it can be, else on the same board, else anywhere. */
export function freeRailHole(circuit: Circuit, net: number, strip: string): string | undefined {
  const [board = '', local = ''] = strip.split('/');
  const nearness = (s: string) => (s.startsWith(`${board}/${local.slice(0, 2)}`) ? 2 : s.startsWith(`${board}/`) ? 1 : 0);
  const rails = circuit.nets.all[net]?.strips.filter(isRail) ?? [];
  for (const s of rails.sort((a, b) => nearness(b) - nearness(a))) {
    const hole = freeHole(circuit.layout, s);
    if (hole) return hole;
  }
  return undefined;
}

/** 'board B1, row 31, holes f to j', 'board B1, bottom − rail, right half': a strip as a technician names it; `/31f` without its board. */
export function stripName(strip: string): string {
  const [board = '', local = ''] = strip.split('/');
  const on = board === '' ? '' : `board ${board}, `;
  const row = /^(\d+)([af])$/.exec(local);
  if (row) return `${on}row ${row[1]}, holes ${row[2] === 'a' ? 'a to e' : 'f to j'}`;
  const rail = /^([+-])([aj])([01])?$/.exec(local);
  if (!rail) return strip;
  const half = rail[3] === undefined ? '' : rail[3] === '0' ? ', left half' : ', right half';
  return `${on}${rail[2] === 'a' ? 'bottom' : 'top'} ${rail[1] === '+' ? '+' : '−'} rail${half}`;
}

/** 'row 31' where side and board have been named already. */
export const holesInRow = (strip: string): string => /row \d+/.exec(stripName(strip))?.[0] ?? stripName(strip);

/** The strip `by` rows along on the same side; undefined for rails. It may not exist on the board. */
export function stripBeside(strip: string, by: number): string | undefined {
  const m = /^(.*\/)(\d+)([af])$/.exec(strip);
  return m ? `${m[1]}${Number(m[2]) + by}${m[3]}` : undefined;
}

export const isRail = (strip: string): boolean => /\/[+-]/.test(strip);
