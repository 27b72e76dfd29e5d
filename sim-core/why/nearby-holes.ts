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

/** 'row 31, f to j', 'the + rail beside a': a strip as a person calls it. */
export function stripName(strip: string): string {
  const [board = '', local = ''] = strip.split('/');
  const on = board === '' ? '' : ` of ${board}`;
  const row = /^(\d+)([af])$/.exec(local);
  if (row) return `row ${row[1]}, ${row[2] === 'a' ? 'a to e' : 'f to j'}${on}`;
  const rail = /^([+-])([aj])([01])?$/.exec(local);
  if (!rail) return strip;
  const half = rail[3] === undefined ? '' : rail[3] === '0' ? ', left half' : ', right half';
  return `the ${rail[1] === '+' ? '+' : '−'} rail beside ${rail[2]}${half}${on}`;
}

/** 'row 31' where side and board have been named already. */
export const rowOfHole = (strip: string): string => stripName(strip).replace(/^(row \d+),.*/, '$1');

/** The strip `by` rows along on the same side; undefined for rails. It may not exist on the board. */
export function stripBeside(strip: string, by: number): string | undefined {
  const m = /^(.*\/)(\d+)([af])$/.exec(strip);
  return m ? `${m[1]}${Number(m[2]) + by}${m[3]}` : undefined;
}

export const isRail = (strip: string): boolean => /\/[+-]/.test(strip);
