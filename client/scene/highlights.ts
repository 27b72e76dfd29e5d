/** Picking out: a ring of ink round each hole of a net, and single things that a sentence speaks of. */
import type { PlanBoard } from '../../shared/plan.ts';
import { holeSpot, holesOf, type Ref, readHole, stripOf } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';
import { around, type Box, type Spot, U } from './geometry.ts';
import { el } from './svg.ts';

export interface Highlights {
  /** the nets a pointer or the focus rests on; an empty list lets go. wire: the one that it rests on, if it is a wire */
  nets(nets: readonly number[], strips?: readonly string[], wire?: string): void;
  /** marks all that a page speaks of, quietly */
  speak(refs: readonly Ref[]): void;
  /** rings what a sentence speaks of, and answers where it is */
  point(ref: Ref | undefined): Box | undefined;
  /** where a thing is, if it is on the bench */
  where(ref: Ref): Box | undefined;
  /** takes all of it away, before the bench is drawn again */
  leave(): void;
}

export interface Drawn {
  readonly faces: ReadonlyMap<string, { readonly box: Box }>;
  readonly legSpots: ReadonlyMap<string, ReadonlyMap<string, Spot>>;
  readonly paths: ReadonlyMap<string, readonly Spot[]>;
}

export interface Layers {
  readonly under: SVGGElement;
  readonly spoken: SVGGElement;
  readonly over: SVGGElement;
  readonly all: SVGGElement;
  readonly wires: SVGGElement;
}

const frame = (b: Box, by: number, round: number, name: string) =>
  el('rect', {
    x: (b.x - by) * U,
    y: (b.y - by) * U,
    width: (b.width + 2 * by) * U,
    height: (b.height + 2 * by) * U,
    rx: round * U,
    class: name,
  });

const known = new WeakMap<readonly PlanBoard[], ReadonlyMap<string, readonly Spot[]>>();

/** The holes of every strip, by its name; found once for the same boards. */
function stripsOf(boards: readonly PlanBoard[]): ReadonlyMap<string, readonly Spot[]> {
  const before = known.get(boards);
  if (before) return before;
  const strips = new Map<string, Spot[]>();
  for (const board of boards)
    for (const hole of holesOf(board)) {
      const spots = strips.get(stripOf(hole));
      if (spots) spots.push(holeSpot(hole));
      else strips.set(stripOf(hole), [holeSpot(hole)]);
    }
  known.set(boards, strips);
  return strips;
}

export function makeHighlights(standing: BenchModel, drawn: Drawn, { under, spoken, over, all, wires }: Layers): Highlights {
  const stripBoxes = stripsOf(standing.plan.boards);
  let shown = '';
  let picked: Element[] = [];
  let marked: Element[] = [];
  let ringed: Element | undefined;
  let one: Element | undefined;
  const wireOf = (id: string) => all.querySelector(`[data-wire="${id}"]`) ?? undefined;

  const boxOf = (ref: Ref): Box | undefined => {
    if (ref.kind === 'part' || ref.kind === 'led') return drawn.faces.get(ref.id.split('.')[0] ?? ref.id)?.box;
    if (ref.kind === 'pin') {
      const [part = '', pin = ''] = ref.id.split('.');
      const spot = drawn.legSpots.get(part)?.get(pin);
      return spot ? around([spot], 0.6) : drawn.faces.get(part)?.box;
    }
    if (ref.kind === 'pole') {
      const [part = '', pole] = ref.id.split('.');
      const legs = drawn.legSpots.get(part);
      const contact = standing.specimen.get(part)?.contacts.find((c) => c.pole + 1 === Number(pole));
      const spots = contact ? [legs?.get(contact.a), legs?.get(contact.b)].filter((s) => s !== undefined) : [];
      return spots.length > 0 ? around(spots, 0.2) : drawn.faces.get(part)?.box;
    }
    if (ref.kind === 'wire') {
      const spots = drawn.paths.get(ref.id);
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
    nets(nets, strips = [], wire = '') {
      const key = `${nets.join()} ${strips.join()} ${wire}`;
      if (key === shown) return;
      shown = key;
      for (const e of picked) e.classList.remove('picked');
      const wanted = new Set(nets);
      picked = nets.flatMap((n) => [...all.querySelectorAll(`[data-net="${n}"]`)]);
      for (const e of picked) e.classList.add('picked');
      one?.classList.remove('the-one');
      one = wire === '' ? undefined : wireOf(wire);
      one?.classList.add('the-one');
      wires.classList.toggle(
        'some-picked',
        picked.some((e) => e.hasAttribute('data-wire')),
      );
      const names = new Set([...strips, ...standing.nets.all.filter((n) => wanted.has(n.index)).flatMap((n) => n.strips)]);
      under.replaceChildren(
        ...[...names].flatMap((name) => {
          const spots = stripBoxes.get(name);
          if (!spots) return [];
          return spots.map(([x, y]) => el('circle', { cx: x * U, cy: y * U, r: 0.34 * U, class: 'hole-ring' }));
        }),
      );
    },
    speak(refs) {
      const each = new Map(refs.map((r) => [`${r.kind} ${r.id}`, r]));
      spoken.replaceChildren(
        ...[...each.values()].flatMap((ref) => {
          if (ref.kind === 'wire' || ref.kind === 'led') return [];
          const box = boxOf(ref);
          return box ? [frame(box, ref.kind === 'part' ? 0.25 : -0.08, 0.5, 'spoken-ring')] : [];
        }),
      );
      for (const e of marked) e.classList.remove('spoken');
      marked = [...each.values()].flatMap((ref) => (ref.kind === 'wire' ? (wireOf(ref.id) ?? []) : []));
      for (const e of marked) e.classList.add('spoken');
    },
    point(ref) {
      const box = ref && boxOf(ref);
      const led = ref?.kind === 'led' && !ref.id.includes('.');
      // the ring's halo keeps its dashes apart from what is under them
      over.replaceChildren(
        ...(box && ref.kind !== 'wire'
          ? ['pointer-halo', 'pointer-ring'].map((name) => frame(box, led ? 0.14 : 0.35, led ? 1.2 : 0.5, name))
          : []),
      );
      ringed?.classList.remove('pointed');
      ringed = ref?.kind === 'wire' ? wireOf(ref.id) : undefined;
      ringed?.classList.add('pointed');
      return box;
    },
    where: boxOf,
    leave() {
      for (const e of picked) e.classList.remove('picked');
      for (const e of marked) e.classList.remove('spoken');
      ringed?.classList.remove('pointed');
      one?.classList.remove('the-one');
      wires.classList.remove('some-picked');
      for (const layer of [under, spoken, over]) layer.replaceChildren();
    },
  };
}
