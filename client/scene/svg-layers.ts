/** What the scene is drawn on: the ground with the boards, the bench that hands touch, and the overlay for what is being dragged; and the light and the hatching that drawings refer to. */
import { LED_INKS, ledInk } from './faces/led-look.ts';
import { el } from './svg.ts';

export function defs(): SVGDefsElement {
  const lights = Object.keys(LED_INKS).map((colour) =>
    el(
      'radialGradient',
      { id: `light-${colour}` },
      el('stop', { offset: '0.3', 'stop-color': ledInk(colour).light, 'stop-opacity': 0.75 }),
      el('stop', { offset: '0.6', 'stop-color': ledInk(colour).light, 'stop-opacity': 0.28 }),
      el('stop', { offset: '1', 'stop-color': ledInk(colour).light, 'stop-opacity': 0 }),
    ),
  );
  const hatch = el(
    'pattern',
    { id: 'unknown-level', width: 5, height: 5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
    el('rect', { width: 2.2, height: 5, fill: '#2b2a33', 'fill-opacity': 0.75 }),
  );
  return el('defs', {}, ...lights, hatch);
}

const layer = (name: string) => el('g', { class: name, 'aria-hidden': 'true' });

export type SvgLayers = ReturnType<typeof makeSvgLayers>;

/** Each of the three moves by its world; the layers are put into the bench's once there is a drawing. */
export function makeSvgLayers() {
  const ground = el('svg', { class: 'ground', 'aria-hidden': 'true' });
  const bench = el('svg', { class: 'bench', role: 'group', tabindex: 0, 'aria-label': 'Bench' });
  const overlaySvg = el('svg', { class: 'overlay', 'aria-hidden': 'true' });
  const [groundWorld, world, overlayWorld] = [el('g'), el('g'), el('g')];
  const overlay = el('g', { class: 'overlay' });
  const note = document.createElement('p');
  note.className = 'beside-pointer';
  note.hidden = true;
  ground.append(groundWorld);
  bench.append(defs(), world);
  overlayWorld.append(overlay);
  overlaySvg.append(overlayWorld);
  return {
    elements: [ground, bench, overlaySvg, note],
    worlds: [groundWorld, world, overlayWorld],
    ground,
    bench,
    groundWorld,
    world,
    overlay,
    note,
    meters: el('g'),
    under: el('g', { class: 'picks-under' }),
    spoken: el('g', { 'aria-hidden': 'true' }),
    over: layer('picks-over'),
    choosing: layer('choosing'),
    ghost: layer('ghost'),
  } as const;
}

/** The drawing's own layers between what lies under and over them. */
export function layOutLayers(
  { world, under, spoken, meters, over, choosing, ghost }: SvgLayers,
  drawn: readonly Element[],
  { root: marks, targets }: { readonly root: Element; readonly targets: Element },
): void {
  world.replaceChildren(under, targets, ...drawn, spoken, meters, marks, over, choosing, ghost);
}
