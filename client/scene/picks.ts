/** Picking out: whole nets in soft bands of light, and single things that a sentence speaks of. */
import type { Ref } from '../core.ts';
import { holeSpot, holesOf, readHole, stripOf } from '../core.ts';
import type { Standing } from '../standing.ts';
import { around, type Box, type Spot, U } from './geometry.ts';
import { el } from './svg.ts';

export interface Picks {
  /** the nets a pointer or the focus rests on; an empty list lets go */
  nets(nets: readonly number[], strips?: readonly string[]): void;
  /** rings what a sentence speaks of, and answers where it is */
  point(ref: Ref | undefined): Box | undefined;
}

export interface Drawn {
  readonly faces: ReadonlyMap<string, { readonly box: Box }>;
  readonly legSpots: ReadonlyMap<string, ReadonlyMap<string, Spot>>;
  readonly curves: ReadonlyMap<string, readonly Spot[]>;
}

export function makePicks(standing: Standing, drawn: Drawn, under: SVGGElement, over: SVGGElement, all: SVGGElement): Picks {
  const stripBoxes = new Map<string, Spot[]>();
  for (const board of standing.plan.boards)
    for (const hole of holesOf(board)) {
      const strip = stripOf(hole);
      const spots = stripBoxes.get(strip);
      if (spots) spots.push(holeSpot(hole));
      else stripBoxes.set(strip, [holeSpot(hole)]);
    }
  let shown = '';
  let picked: Element[] = [];

  const boxOf = (ref: Ref): Box | undefined => {
    if (ref.kind === 'part' || ref.kind === 'lamp') return drawn.faces.get(ref.id.split('.')[0] ?? ref.id)?.box;
    if (ref.kind === 'pin') {
      const [part = '', pin = ''] = ref.id.split('.');
      const spot = drawn.legSpots.get(part)?.get(pin);
      return spot ? around([spot], 0.6) : drawn.faces.get(part)?.box;
    }
    if (ref.kind === 'lead') {
      const spots = drawn.curves.get(ref.id);
      return spots && around(spots, 0.2);
    }
    if (ref.kind === 'point') {
      const hole = readHole(ref.id, standing.plan.boards);
      return 'problem' in hole ? undefined : around([holeSpot(hole)], 0.6);
    }
    const board = standing.plan.boards.find((b) => b.id === ref.id);
    return board && around(holesOf(board).map(holeSpot), 1);
  };

  return {
    nets(nets, strips = []) {
      const key = `${nets.join()} ${strips.join()}`;
      if (key === shown) return;
      shown = key;
      for (const e of picked) e.classList.remove('picked');
      const wanted = new Set(nets);
      picked = nets.flatMap((n) => [...all.querySelectorAll(`[data-net="${n}"]`)]);
      for (const e of picked) e.classList.add('picked');
      const names = new Set([...strips, ...standing.nets.all.filter((n) => wanted.has(n.index)).flatMap((n) => n.strips)]);
      under.replaceChildren(
        ...[...names].flatMap((name) => {
          const spots = stripBoxes.get(name);
          if (!spots) return [];
          const b = around(spots, 0.36);
          return [el('rect', { x: b.x * U, y: b.y * U, width: b.width * U, height: b.height * U, rx: 0.36 * U, class: 'strip-light' })];
        }),
      );
    },
    point(ref) {
      const box = ref && boxOf(ref);
      over.replaceChildren(
        ...(box && ref.kind !== 'lead'
          ? [
              el('rect', {
                x: (box.x - 0.35) * U,
                y: (box.y - 0.35) * U,
                width: (box.width + 0.7) * U,
                height: (box.height + 0.7) * U,
                rx: 0.5 * U,
                class: 'pointer-ring',
              }),
            ]
          : []),
      );
      for (const e of all.querySelectorAll('.pointed')) e.classList.remove('pointed');
      if (ref?.kind === 'lead') all.querySelector(`[data-lead="${ref.id}"]`)?.classList.add('pointed');
      return box;
    },
  };
}
