/** Picking out: a ring of ink round each hole of a net, and single things that a sentence speaks of. */
import type { PlanBoard } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { holeSpot, holesOf, type Ref, readHole, stripOf } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';
import { around, type Box, type Spot, U } from './geometry.ts';
import { el } from './svg.ts';

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

export class Highlights {
  private readonly holes: ReadonlyMap<string, readonly Spot[]>;
  private shown = '';
  /** what has a mark of each kind now */
  private picked: readonly Element[] = [];
  private marked: readonly Element[] = [];
  private ringed: Element | undefined;
  /** what is ringed now, and where */
  private pointed: { readonly ref?: Ref | undefined; readonly box?: Box | undefined } = {};
  private one: Element | undefined;

  constructor(
    private readonly model: BenchModel,
    private readonly drawn: Drawn,
    private readonly layers: Layers,
  ) {
    this.holes = stripsOf(model.plan.boards);
  }

  /** The nets a pointer or the focus rests on; an empty list lets go. wire: the one that it rests on, if it is a wire. */
  nets(nets: readonly number[], strips: readonly string[] = [], wire = ''): void {
    const key = `${nets.join()} ${strips.join()} ${wire}`;
    if (key === this.shown) return;
    this.shown = key;
    const { all, wires, under } = this.layers;
    const found = nets.flatMap((n) => [...all.querySelectorAll(`[data-net="${n}"]`)]);
    this.picked = remark(this.picked, found, 'picked');
    this.one = remarkOne(this.one, wire === '' ? undefined : this.wireOf(wire), 'the-one');
    wires.classList.toggle(
      'some-picked',
      found.some((e) => e.hasAttribute('data-wire')),
    );
    const joined = this.model.nets.all.filter((n) => nets.includes(n.index)).flatMap((n) => n.strips);
    const spots = [...new Set([...strips, ...joined])].flatMap((name) => this.holes.get(name) ?? []);
    under.replaceChildren(...spots.map(([x, y]) => el('circle', { cx: x * U, cy: y * U, r: 0.34 * U, class: 'hole-ring' })));
  }

  /** Marks all that a page speaks of, quietly. */
  speak(refs: readonly Ref[]): void {
    const each = [...new Map(refs.map((r) => [`${r.kind} ${r.id}`, r])).values()];
    this.layers.spoken.replaceChildren(
      ...each.flatMap((ref) => {
        const box = ref.kind === 'wire' || ref.kind === 'led' ? undefined : this.where(ref);
        return box ? [frame(box, ref.kind === 'part' ? 0.25 : -0.08, 0.5, 'spoken-ring')] : [];
      }),
    );
    const wires = each.flatMap((ref) => (ref.kind === 'wire' ? (this.wireOf(ref.id) ?? []) : []));
    this.marked = remark(this.marked, wires, 'spoken');
  }

  /** Rings what a sentence speaks of, and answers where it is. A ring that is there already stays as it is. */
  point(ref: Ref | undefined): Box | undefined {
    const box = ref && this.where(ref);
    if (sameValue(this.pointed, { ref, box })) return box;
    this.pointed = { ref, box };
    const led = ref?.kind === 'led' && !ref.id.includes('.');
    // the ring's halo keeps its dashes apart from what is under them
    this.layers.over.replaceChildren(
      ...(box && ref.kind !== 'wire'
        ? ['pointer-halo', 'pointer-ring'].map((name) => frame(box, led ? 0.14 : 0.35, led ? 1.2 : 0.5, name))
        : []),
    );
    this.ringed = remarkOne(this.ringed, ref?.kind === 'wire' ? this.wireOf(ref.id) : undefined, 'pointed');
    return box;
  }

  /** Where a thing is, if it is on the bench. */
  where(ref: Ref): Box | undefined {
    const { faces, legSpots, paths } = this.drawn;
    const { plan } = this.model;
    const [part = '', of = ''] = ref.id.split('.');
    if (ref.kind === 'part' || ref.kind === 'led') return faces.get(part)?.box;
    if (ref.kind === 'pin') {
      const spot = legSpots.get(part)?.get(of);
      return spot ? around([spot], 0.6) : faces.get(part)?.box;
    }
    if (ref.kind === 'pole') return this.poleBox(part, Number(of)) ?? faces.get(part)?.box;
    if (ref.kind === 'wire') {
      const spots = paths.get(ref.id);
      return spots && around(spots, 0.2);
    }
    if (ref.kind === 'point') {
      const hole = readHole(ref.id, plan.boards);
      return hole.ok ? around([holeSpot(hole.value)], 0.6) : undefined;
    }
    const board = plan.boards.find((b) => b.id === ref.id);
    return board && around(holesOf(board).map(holeSpot), 1);
  }

  /** Takes all of it away, before the bench is drawn again. */
  leave(): void {
    remark(this.picked, [], 'picked');
    remark(this.marked, [], 'spoken');
    remarkOne(this.ringed, undefined, 'pointed');
    remarkOne(this.one, undefined, 'the-one');
    const { wires, under, spoken, over } = this.layers;
    wires.classList.remove('some-picked');
    for (const layer of [under, spoken, over]) layer.replaceChildren();
  }

  /** pole: counted from 1 */
  private poleBox(part: string, pole: number): Box | undefined {
    const legs = this.drawn.legSpots.get(part);
    const contact = this.model.specimen.get(part)?.contacts.find((c) => c.pole + 1 === pole);
    const spots = contact ? [legs?.get(contact.a), legs?.get(contact.b)].filter((s) => s !== undefined) : [];
    return spots.length > 0 ? around(spots, 0.2) : undefined;
  }

  private wireOf(id: string): Element | undefined {
    return this.layers.all.querySelector(`[data-wire="${id}"]`) ?? undefined;
  }
}

/** Takes a mark from some elements and gives it to others, which are answered. */
function remark(before: readonly Element[], now: readonly Element[], name: string): readonly Element[] {
  for (const e of before) e.classList.remove(name);
  for (const e of now) e.classList.add(name);
  return now;
}

function remarkOne(before: Element | undefined, now: Element | undefined, name: string): Element | undefined {
  return remark(before ? [before] : [], now ? [now] : [], name)[0];
}
