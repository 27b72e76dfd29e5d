/** The bench on the screen: holds the drawing, its view, and what a pointer or the focus picks out. */

import { customElement, property } from 'lit/decorators.js';
import type { PlanMeter } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import type { Readings, Ref } from '../../sim-core/index.ts';
import type { Builder } from '../edit/builder.ts';
import { type EditLayer, makeEditLayer } from '../edit/edit-layer.ts';
import type { Target } from '../edit/hit-test.ts';
import { Drawing, inOrder } from '../scene/drawing.ts';
import type { FaceActions } from '../scene/faces/face.ts';
import { type Box, U, union } from '../scene/geometry.ts';
import { Highlights } from '../scene/highlights.ts';
import { type Under, underHole } from '../scene/hit-text.ts';
import { type HoleIndex, indexHoles } from '../scene/hole-index.ts';
import { attachPointing } from '../scene/hover.ts';
import { type LabelScale, makeLabelScale } from '../scene/label-scaling.ts';
import { type LedsAway, ledsBox, roundLeds, watchLeds } from '../scene/led-sight.ts';
import { View } from '../scene/pan-zoom.ts';
import { svgPicture } from '../scene/picture.ts';
import { whilePressed } from '../scene/pressed.ts';
import { layOutForPrint } from '../scene/print-layout.ts';
import { defs, layOutLayers, makeSvgLayers } from '../scene/svg-layers.ts';
import type { BenchModel } from '../state/bench-model.ts';
import { presenting } from '../theme/presentation.ts';
import { LightElement } from '../ui/light-element.ts';
import { makeFindingMarks } from './finding-marks.ts';
import { drawMeters, type MeterTags } from './meter-tags.ts';

/** A menu is asked for what is there, at a place in the window [px]. */
export interface MenuAsked {
  readonly target: Target;
  readonly x: number;
  readonly y: number;
}

/** On a narrow window the bench opens no smaller than this, and is panned [px per drawing unit]. */
const LEGIBLE = 0.75;
const NARROW = 700;
/** What a finger hits with certainty [px]: WCAG 2.2, 2.5.8 Target Size (Minimum). */
const FINGER = 24;
/** The title at the head [px]. */
const [HEAD, HEAD_PRESENTED] = [40, 78];
/** The row of buttons at the foot, and the timing diagram that opens by itself above it [px]. */
const [FOOT, STRIP] = [52, 236];
/** After an edit all names are placed again once no other has followed for so long [ms]; until then only those it is about are. */
const NAME_AFTER = 200;

@customElement('bench-scene')
export class BenchScene extends LightElement {
  @property({ attribute: false }) model: BenchModel | undefined;
  @property({ attribute: false }) actions: FaceActions | undefined;
  @property({ attribute: false }) builder: Builder | undefined;
  /** Parts is open: a click builds rather than asks */
  @property({ type: Boolean }) building = false;
  /** the meter has the pointer */
  @property({ type: Boolean }) measuring = false;

  /** so much of its lower edge something else lies over [px] */
  @property({ attribute: false }) lowerEdge: () => number = () => 0;

  private readonly on = makeSvgLayers();
  private view: View | undefined;
  private letters: LabelScale | undefined;
  private drawing: Drawing | undefined;
  private picks: Highlights | undefined;
  private meters: MeterTags | undefined;
  /** of findings, at the things they are about */
  readonly marks = makeFindingMarks();
  private editLayer: EditLayer | undefined;
  private last: Readings | undefined;
  private spokenOf: readonly Ref[] = [];
  private pointed: Ref | undefined;
  private revealed: Ref | undefined;
  private holes: HoleIndex = () => undefined;

  override connectedCallback() {
    super.connectedCallback();
    if (this.view) return;
    const { bench, worlds } = this.on;
    this.append(...this.on.elements);
    this.letters = makeLabelScale(worlds, (scale, near) => this.drawing?.name(scale, near));
    this.view = new View({
      surface: bench,
      worlds,
      home: () => this.whole,
      inset: () => ({ top: presenting() ? HEAD_PRESENTED : HEAD, bottom: Math.max(FOOT, this.covered, this.lowerEdge()), spare: STRIP }),
      moved: (sight) => {
        this.leds(ledsBox(this.model, this.drawing), sight);
        this.dispatchEvent(new Event('moved'));
        if (this.view && this.drawing) this.letters?.fit(this.view.scale);
      },
    });
    bench.addEventListener('keydown', (e) => this.editLayer?.key(e) || e.defaultPrevented || this.view?.key(e));
    bench.addEventListener('dblclick', (e) => {
      const part = e.target instanceof Element ? e.target.closest<SVGElement>('[data-part]') : undefined;
      if (!part || part.closest('.chip, [role=switch], .push-button-top')) return;
      this.builder?.select([part.dataset.part ?? '']);
      this.dispatchEvent(new Event('value-asked'));
    });
    attachPointing(bench, {
      model: () => this.model,
      drawing: () => this.drawing,
      toBench: (x, y) => this.view?.toBench(x, y) ?? [0, 0],
      holeAt: (spot) => this.holes(spot),
      busy: () => Boolean(this.view?.moving || this.editLayer?.busy),
      tell: (under) => this.tell(under),
      touched: (under) => void this.dispatchEvent(new CustomEvent<Under>('touched', { detail: under })),
      reveal: (box) => this.view?.reveal(box),
    });
    addEventListener('beforeprint', () => this.layOnPaper());
    addEventListener('afterprint', () => this.takeOffPaper());
    // a size of its own in pixels, so that no change elsewhere on the page makes the browser lay out the whole drawing
    if (this.parentElement) new ResizeObserver(() => this.takeRoom()).observe(this.parentElement);
    this.takeRoom();
    new MutationObserver(() => this.repaint()).observe(document.documentElement, { attributeFilter: ['data-theme'] });
    new MutationObserver(() => this.resize()).observe(document.documentElement, { attributeFilter: ['data-size'] });
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>) {
    const { model, actions } = this;
    if (this.builder && !this.editLayer) this.attachEditLayer(this.builder);
    if (!changed.has('model') || !model || !actions) return;
    const before = changed.get('model') as BenchModel | undefined;
    if (before?.layout !== model.layout) this.build(model, actions);
    if (!this.drawing) return;
    this.drawing.mark(model.plan);
    this.meters = drawMeters(
      model,
      this.drawing,
      () => this.view?.scale ?? 1,
      (meter, tag) => this.dispatchEvent(new CustomEvent<PlanMeter>('meter-moved', { detail: { ...meter, tag: [...tag] } })),
    );
    this.on.meters.replaceChildren(this.meters.root);
  }

  private build(model: BenchModel, actions: FaceActions) {
    const before = this.drawing;
    const drawing = new Drawing(model, actions, before);
    this.drawing = drawing;
    this.editLayer?.renew();
    if (!before) layOutLayers(this.on, inOrder(drawing.layers), this.marks);
    if (before?.boards !== drawing.boards) {
      this.on.groundWorld.replaceChildren(drawing.boards);
      this.holes = indexHoles(model.plan.boards);
    }
    this.on.bench.setAttribute('aria-label', `Bench: ${model.plan.title}`);
    // what was under the pointer was of the bench before
    if (before) this.tell(undefined);
    this.picks?.leave();
    this.picks = new Highlights(model, drawing, { ...this.on, all: this.on.world, wires: drawing.layers.wires });
    const { picks } = this;
    this.marks.place(
      (ref) => picks.where(ref),
      () => drawing.markRoom(),
    );
    this.picks.speak(this.spokenOf);
    this.picks.point(this.pointed);
    this.editLayer?.drawChosen();
    this.last = undefined;
    if (!sameValue(before?.box, drawing.box) && !this.view?.chosen) this.frame();
    clearTimeout(this.naming);
    if (before) {
      drawing.nameChanged();
      this.naming = setTimeout(() => this.fitLetters(), NAME_AFTER);
    } else this.fitLetters();
    this.dispatchEvent(new Event('moved'));
  }
  private naming: ReturnType<typeof setTimeout> | undefined;

  /** all names where they stand best for what is on the bench now */
  private fitLetters() {
    this.letters?.renew();
    this.letters?.fit(this.view?.scale ?? 1);
  }

  private attachEditLayer(builder: Builder) {
    this.editLayer = makeEditLayer({
      surface: this.on.bench,
      host: this,
      builder,
      ghostLayer: this.on.ghost,
      choosing: this.on.choosing,
      note: this.on.note,
      overlay: this.on.overlay,
      model: () => this.model,
      drawing: () => this.drawing,
      toBench: (x, y) => this.view?.toBench(x, y) ?? [0, 0],
      holeAt: (spot) => this.holes(spot)?.name,
      away: () => this.measuring,
      scale: () => this.view?.scale ?? 1,
      building: () => this.building,
      stopPanning: () => this.view?.letGo(),
      choseLed: (led) => void this.dispatchEvent(new CustomEvent<string>('led-chosen', { detail: led })),
      askMenu: (target, { x, y }) => void this.dispatchEvent(new CustomEvent<MenuAsked>('menu-asked', { detail: { target, x, y } })),
      say: (news) => void this.dispatchEvent(new CustomEvent<string>('news', { detail: news })),
      cameTo: ([x, y]) => {
        const hole = this.holes([x, y]);
        this.tell(hole && this.model && underHole(hole, this.model));
        this.view?.reveal({ x: x - 1, y: y - 1, width: 2, height: 2 });
      },
    });
  }

  /** Where some things and the whole bench are on the surface [px]. */
  whereabouts(ids: readonly string[]): { readonly thing: Box; readonly bench: Box } | undefined {
    const { drawing, view } = this;
    if (!drawing || !view) return undefined;
    const thing = union(ids.flatMap((id) => drawing.boxOf(id) ?? []));
    const onSurface = ({ x, y, width, height }: Box): Box => {
      const [left, top] = view.toSurface([x, y]);
      return { x: left, y: top, width: width * view.scale * U, height: height * view.scale * U };
    };
    return thing && { thing: onSurface(thing), bench: onSurface(drawing.box) };
  }

  private covered = 0;

  /** So much of the surface's bottom is covered from now on [px]; what is spoken of there comes above it. */
  cover(covered: number, ref?: Ref) {
    this.covered = covered;
    const box = covered > 0 && ref && this.picks?.where(ref);
    if (box) this.view?.reveal(box);
  }

  /** Cancels what is under way; true if there was anything. */
  cancel(): boolean {
    return this.editLayer?.cancel() ?? false;
  }

  /** Is there room below the bench for the timing diagram, so that it covers nothing of it? */
  get roomForStrip(): boolean {
    const { view, whole } = this;
    return view !== undefined && this.clientHeight - FOOT - view.toSurface([0, whole.y + whole.height])[1] >= STRIP;
  }

  /** A person has opened or closed what stands beside the bench: it may fit itself to its room. */
  mayFit() {
    this.fits = true;
  }
  /** is its next size a person's doing? */
  private fits = true;
  /** the window and its own width when it took its room last [px] */
  private stood = '';
  /** its room has changed while a hand was on something, under which nothing moves */
  private readonly pressed = whilePressed(() => this.takeRoom());

  private takeRoom() {
    if (this.pressed.wait()) return;
    const { clientWidth = 0, clientHeight = 0 } = this.parentElement ?? {};
    this.style.setProperty('--wide', `${clientWidth}px`);
    this.style.setProperty('--high', `${clientHeight}px`);
    const stands = `${clientWidth} ${innerWidth} ${innerHeight}`;
    // what opens by itself leaves the sight as it is
    if (this.fits || stands !== this.stood) this.resized();
    [this.fits, this.stood] = [false, stands];
  }

  private get whole(): Box {
    return this.drawing?.box ?? { x: 0, y: 0, width: 65, height: 20 };
  }

  /** The whole bench, or what of it can be read on a narrow window, until a person chooses otherwise. */
  frame() {
    if (this.clientWidth > 0) this.view?.fit(this.whole, this.clientWidth < NARROW ? LEGIBLE : 0);
  }

  /** Paints a reading: attributes of elements made before, only where they differ. */
  show(readings: Readings) {
    this.last = readings;
    this.drawing?.show(readings, document.documentElement.dataset.theme === 'dark');
    this.meters?.show(readings);
  }

  /** letters have another size: everything that stands by them is placed again */
  private resize() {
    this.letters?.renew();
    if (!this.view) return;
    this.letters?.fit(this.view.scale);
    this.view.refresh();
  }

  /** What was brought into sight stays there when the strip or the notebook takes room. */
  private resized() {
    if (!this.view?.chosen) this.frame();
    const box = this.revealed && this.picks?.point(this.revealed);
    if (box) this.view?.reveal(box);
  }

  private repaint() {
    if (this.last) this.show(this.last);
  }

  /** Marks all that a page speaks of. */
  speak(refs: readonly Ref[]) {
    this.spokenOf = refs;
    this.picks?.speak(refs);
  }

  /** Picks nets out for a list in which they are looked at. */
  pickNets(nets: readonly number[]) {
    this.picks?.nets(nets);
  }

  /** Rings a thing that a sentence speaks of and brings it into sight; undefined takes the ring away. */
  point(ref: Ref | undefined, reveal: boolean) {
    this.pointed = ref;
    const box = this.picks?.point(ref);
    if (reveal) this.revealed = ref;
    if (!box || !reveal || !this.view) return;
    // a finger is to hit one pole and not its neighbour
    const pitch = this.view.scale * U;
    if (ref?.kind === 'pole' && pitch < FINGER && matchMedia('(pointer: coarse)').matches) this.view.zoomBy(FINGER / pitch);
    this.view.reveal(box);
  }

  /** Shows a thing as large as lets one see what is round it. */
  zoomTo(ref: Ref) {
    const box = this.picks?.point(ref);
    this.pointed = ref;
    if (box) this.view?.show({ x: box.x - 3, y: box.y - 3, width: box.width + 6, height: box.height + 6 });
  }

  /** The bench as a picture that stands alone, on paper; undefined while there is none. */
  async picture(): Promise<string | undefined> {
    const { drawing, last, model } = this;
    if (!drawing || !last || !model) return undefined;
    drawing.show(last, false);
    drawing.name(1, true);
    const svg = svgPicture([this.on.groundWorld, this.on.world], defs(), drawing.box, model.plan.title);
    this.fitLetters();
    this.show(last);
    return svg;
  }

  /** As it goes on paper: the whole bench, in the light look, with names in their printed size. */
  private layOnPaper() {
    const { drawing, last } = this;
    if (!drawing || !last) return;
    layOutForPrint([this.on.ground, this.on.bench], [this.on.groundWorld, this.on.world], drawing.box);
    drawing.show(last, false);
    drawing.name(1, true);
  }

  private takeOffPaper() {
    for (const svg of [this.on.ground, this.on.bench]) svg.removeAttribute('viewBox');
    this.resize();
    this.repaint();
  }

  /** pixels to a drawing unit, 1 being 100 % */
  get zoom(): number {
    return this.view?.scale ?? 1;
  }
  set zoom(scale: number) {
    this.view?.zoomTo(scale);
  }

  /** Shows several things as large as they fit together, with what is round them. */
  zoomToAll(ids: readonly string[]) {
    const box = union(ids.flatMap((id) => this.drawing?.boxOf(id) ?? []));
    if (box) this.view?.show({ x: box.x - 3, y: box.y - 3, width: box.width + 6, height: box.height + 6 });
  }

  zoomBy(factor: number) {
    this.view?.zoomBy(factor);
  }

  fit() {
    this.view?.fit(this.whole);
  }

  private readonly leds = watchLeds((where) => void this.dispatchEvent(new CustomEvent<LedsAway>('leds-away', { detail: where })));

  showLeds() {
    const box = ledsBox(this.model, this.drawing);
    if (box) this.view?.show(roundLeds(box));
  }

  key(e: KeyboardEvent) {
    return this.editLayer?.nudge(e) || (this.view?.key(e) ?? false);
  }

  private tell(under: Under | undefined) {
    this.picks?.nets(under?.nets ?? [], under?.strips, under?.ref?.kind === 'wire' ? under.ref.id : undefined);
    this.dispatchEvent(new CustomEvent<Under | undefined>('under', { detail: under }));
  }
}
