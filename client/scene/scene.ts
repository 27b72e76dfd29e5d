/** The bench on the screen: holds the drawing, its view, and what a pointer or the focus picks out. */
import { LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { holeName, holeSpot, holesOf, type Readings, type Ref, stripOf } from '../core.ts';
import { drawMeters, type MeterTags } from '../meter/meter-tags.ts';
import type { Standing } from '../standing.ts';
import { type Drawing, drawBench } from './drawing.ts';
import type { Hand } from './faces/face.ts';
import { LAMP_INKS, lampInk } from './faces/lamp-look.ts';
import { type Box, overlap, type Spot, union } from './geometry.ts';
import { makePicks, type Picks } from './picks.ts';
import { el } from './svg.ts';
import { attachView, type View } from './view.ts';

/** Where a pointer or the focus rests. */
export interface Under {
  /** plain name: 'a12', 'W3', 'U1 pin 8 A0', 'vent' */
  readonly name: string;
  readonly nets: readonly number[];
  /** what each net is to it: 'anode'; none where there is but one */
  readonly sides?: readonly string[];
  readonly strips: readonly string[];
  /** a tie point: 'a12' */
  readonly point?: string;
  /** a leg: 'R1.2' */
  readonly leg?: string;
}

/** The edge behind which the lamps are, if they are out of sight. */
export type LampsAway = 'left' | 'right' | undefined;

/** On a narrow window the bench opens no smaller than this, and is panned [px per drawing unit]. */
const LEGIBLE = 0.75;
const NARROW = 700;

@customElement('bench-scene')
export class BenchScene extends LitElement {
  @property({ attribute: false }) standing: Standing | undefined;
  @property({ attribute: false }) hand: Hand | undefined;

  private readonly ground = el('svg', { class: 'ground', 'aria-hidden': 'true' });
  private readonly bench = el('svg', { class: 'bench', role: 'group', tabindex: 0, 'aria-label': 'Bench' });
  private readonly groundWorld = el('g');
  private readonly world = el('g');
  private view: View | undefined;
  private drawing: Drawing | undefined;
  private picks: Picks | undefined;
  private meters: MeterTags | undefined;
  private readonly metersLayer = el('g');
  private last: Readings | undefined;
  private spokenOf: readonly Ref[] = [];
  private pointed: Ref | undefined;
  private readonly spots = new Map<string, { name: string; strip: string }>();

  protected override createRenderRoot() {
    return this;
  }

  override connectedCallback() {
    super.connectedCallback();
    if (this.view) return;
    this.ground.append(this.groundWorld);
    this.bench.append(defs(), this.world);
    this.append(this.ground, this.bench);
    this.view = attachView(
      this.bench,
      [this.groundWorld, this.world],
      () => this.whole,
      () => ({ top: 40, bottom: 52 }),
      (sight) => this.tellLamps(sight),
    );
    this.bench.addEventListener('keydown', (e) => this.view?.key(e));
    this.bench.addEventListener('pointermove', (e) => this.pick(e));
    this.bench.addEventListener('pointerleave', () => this.letGo());
    this.bench.addEventListener('focusin', (e) => this.pickFocused(e.target as Element));
    this.bench.addEventListener('focusout', () => this.letGo());
    this.bench.addEventListener('click', (e) => this.clicked(e));
    new ResizeObserver(() => this.view?.chosen || this.frame()).observe(this);
    new MutationObserver(() => this.repaint()).observe(document.documentElement, { attributeFilter: ['data-theme'] });
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>) {
    const { standing, hand } = this;
    if (!changed.has('standing') || !standing || !hand) return;
    const before = changed.get('standing') as Standing | undefined;
    if (before?.layout !== standing.layout) this.build(standing, hand);
    if (!this.drawing) return;
    this.meters = drawMeters(standing, this.drawing);
    this.metersLayer.replaceChildren(this.meters.root);
  }

  private build(standing: Standing, hand: Hand) {
    const before = this.drawing?.box;
    const drawing = drawBench(standing, hand);
    this.drawing = drawing;
    const under = el('g', { class: 'picks-under' });
    const over = el('g', { class: 'picks-over', 'aria-hidden': 'true' });
    this.groundWorld.replaceChildren(drawing.boards);
    const spoken = el('g', { 'aria-hidden': 'true' });
    this.world.replaceChildren(under, ...drawing.layers, spoken, this.metersLayer, over);
    this.bench.setAttribute('aria-label', `Bench: ${standing.plan.title}`);
    this.picks = makePicks(standing, drawing, { under, spoken, over, all: this.world });
    this.picks.speak(this.spokenOf);
    this.picks.point(this.pointed);
    this.spots.clear();
    for (const board of standing.plan.boards)
      for (const hole of holesOf(board))
        this.spots.set(holeSpot(hole).join(), { name: holeName(hole, standing.plan.boards), strip: stripOf(hole) });
    this.last = undefined;
    if (JSON.stringify(before) !== JSON.stringify(drawing.box)) this.frame();
  }

  private get whole(): Box {
    return this.drawing?.box ?? { x: 0, y: 0, width: 65, height: 20 };
  }

  private frame() {
    if (this.clientWidth > 0) this.view?.fit(this.whole, this.clientWidth < NARROW ? LEGIBLE : 0);
  }

  /** Paints a reading: attributes of elements made before, only where they differ. */
  show(readings: Readings) {
    this.last = readings;
    this.drawing?.show(readings, document.documentElement.dataset.theme === 'dark');
    this.meters?.show(readings);
  }

  private repaint() {
    if (this.last) this.show(this.last);
  }

  /** Marks all that a page speaks of. */
  speak(refs: readonly Ref[]) {
    this.spokenOf = refs;
    this.picks?.speak(refs);
  }

  /** Rings a thing that a sentence speaks of and brings it into sight; undefined takes the ring away. */
  point(ref: Ref | undefined, reveal: boolean) {
    this.pointed = ref;
    const box = this.picks?.point(ref);
    if (box && reveal) this.view?.reveal(box);
  }

  zoomBy(factor: number) {
    this.view?.zoomBy(factor);
  }

  fit() {
    this.view?.fit(this.whole);
  }

  /** Where the lamps are when all of them are out of sight. */
  private tellLamps(sight: Box) {
    const lamps = this.lampsBox;
    const where = !lamps || overlap(lamps, sight) > 0.25 * lamps.width * lamps.height ? undefined : lamps.x < sight.x ? 'left' : 'right';
    if (where === this.lampsAway) return;
    this.lampsAway = where;
    this.dispatchEvent(new CustomEvent<LampsAway>('lamps-away', { detail: where }));
  }
  private lampsAway: LampsAway;

  private get lampsBox(): Box | undefined {
    const { standing, drawing } = this;
    return union((standing?.specimens ?? []).flatMap((s) => (s.lamps.length > 0 ? (drawing?.faces.get(s.part.id)?.box ?? []) : [])));
  }

  showLamps() {
    const box = this.lampsBox;
    if (!box || !this.view) return;
    this.view.fit({ x: box.x - 1, y: box.y - 3, width: box.width + 2, height: box.height + 6 });
    // a choice that a change of size does not undo
    this.view.zoomBy(1);
  }

  key(e: KeyboardEvent) {
    return this.view?.key(e) ?? false;
  }

  private underPointer(e: { clientX: number; clientY: number; target: EventTarget | null }): Under | undefined {
    const { standing, view } = this;
    if (!standing || !view) return undefined;
    const spot = view.toBench(e.clientX, e.clientY);
    const target = e.target instanceof Element ? e.target : undefined;
    const marked = target?.closest<SVGElement>('[data-pin], [data-lead], [data-part]');
    if (marked) return this.underElement(marked, spot);
    const hole = this.spots.get(nearest(spot).join());
    if (!hole) return undefined;
    const net = standing.nets.ofStrip.get(hole.strip);
    return { name: hole.name, nets: net ? [net.index] : [], strips: [hole.strip], point: hole.name };
  }

  private underElement(marked: SVGElement, spot?: Spot): Under | undefined {
    const { standing } = this;
    if (!standing) return undefined;
    const { lead, part, pin, lamp, pins } = marked.dataset;
    if (lead) return { name: lead, nets: [standing.netOfLead.get(lead) ?? -1], strips: [], ...this.nearEnd(lead, spot) };
    const s = standing.specimen.get(part ?? '');
    if (!s) return undefined;
    const netOf = (p: string) => standing.netOfLeg.get(`${s.part.id}.${p}`) ?? -1;
    if (pin)
      return {
        name: s.supply ? `${s.part.id}.${pin}` : `${s.part.id} pin ${pin} ${s.legs.find((l) => l.pin.pin === pin)?.pin.name ?? ''}`,
        nets: [netOf(pin)],
        strips: [],
        leg: `${s.part.id}.${pin}`,
      };
    if (lamp) {
      const it = s.lamps.find((l) => l.lamp === lamp);
      return { name: it?.name ?? lamp, nets: it ? [netOf(it.anode), netOf(it.cathode)] : [], sides: ['anode', 'cathode'], strips: [] };
    }
    if (pins)
      return {
        name: marked.getAttribute('aria-label') ?? s.part.id,
        nets: pins.split(' ').map(netOf),
        sides: ['one side', 'the other'],
        strips: [],
      };
    // a supply's case: its nets are at its posts
    if (s.supply) return { name: `${s.part.label ?? 'bench supply'} ${s.part.id}`, nets: [], strips: [] };
    // a bare body: the leg nearest to the pointer
    const near = [...(this.drawing?.legSpots.get(s.part.id) ?? [])].sort(([, a], [, b]) => away(a, spot) - away(b, spot))[0];
    const pinName = near && s.isChip ? ` pin ${near[0]} ${s.legs.find((l) => l.pin.pin === near[0])?.pin.name ?? ''}` : '';
    return {
      name: `${s.part.id}${s.part.label ? ` ${s.part.label}` : ''}${pinName}`,
      nets: near && spot ? [netOf(near[0])] : s.legs.map((l) => l.net),
      strips: [],
      ...(near && spot ? { leg: `${s.part.id}.${near[0]}` } : {}),
    };
  }

  /** The end of a lead that is nearer to a spot, as a tie point. */
  private nearEnd(id: string, spot: Spot | undefined): { readonly point?: string } {
    const lead = this.standing?.plan.leads.find((l) => l.id === id);
    const curve = this.drawing?.curves.get(id);
    const [from, to] = [curve?.[0], curve?.at(-1)];
    if (!lead || !from || !to || !spot) return {};
    return { point: away(from, spot) <= away(to, spot) ? lead.from : lead.to };
  }

  private pick(e: PointerEvent) {
    if (this.view?.moving) return;
    this.tell(this.underPointer(e));
  }

  private pickFocused(target: Element) {
    const marked = target.closest<SVGElement>('[data-part]');
    if (!marked?.matches(':focus-visible')) return;
    this.tell(this.underElement(marked));
    const box = this.drawing?.faces.get(marked.dataset.part ?? '')?.box;
    if (box) this.view?.reveal(union([box]) ?? box);
  }

  private letGo() {
    this.tell(undefined);
  }

  private tell(under: Under | undefined) {
    this.picks?.nets(under?.nets ?? [], under?.strips);
    this.dispatchEvent(new CustomEvent<Under | undefined>('under', { detail: under }));
  }

  private clicked(e: MouseEvent) {
    const under = this.underPointer(e);
    if (under) this.dispatchEvent(new CustomEvent<Under>('touched', { detail: under }));
  }
}

const nearest = ([x, y]: Spot): Spot => [Math.round(x), Math.round(y)];
const away = (a: Spot, b: Spot | undefined) => (b ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0);

function defs(): SVGDefsElement {
  const lights = Object.keys(LAMP_INKS).map((colour) =>
    el(
      'radialGradient',
      { id: `light-${colour}` },
      el('stop', { offset: '0.3', 'stop-color': lampInk(colour).light, 'stop-opacity': 0.75 }),
      el('stop', { offset: '0.6', 'stop-color': lampInk(colour).light, 'stop-opacity': 0.28 }),
      el('stop', { offset: '1', 'stop-color': lampInk(colour).light, 'stop-opacity': 0 }),
    ),
  );
  const hatch = el(
    'pattern',
    { id: 'undecided', width: 5, height: 5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
    el('rect', { width: 2.2, height: 5, fill: '#2b2a33', 'fill-opacity': 0.75 }),
  );
  return el('defs', {}, ...lights, hatch);
}
