/** Meters on the drawing: a probe at the point or leg, and a tag with the live figure. */
import type { PlanMeter } from '../../shared/plan.ts';
import { holeSpot, type Readings, readHole, siFormat } from '../../sim-core/index.ts';
import { type Box, overlap, type Spot, U } from '../scene/geometry.ts';
import type { Drawn } from '../scene/highlights.ts';
import { el } from '../scene/svg.ts';
import type { BenchModel } from '../state/bench-model.ts';

/** "4.98 V", "12.1 mA", "H, 3 pulses" */
export function meterSays(meter: PlanMeter, { meters, probes }: Pick<Readings, 'meters' | 'probes'>): string {
  if (meter.measures === 'level') {
    const probe = probes[meter.id];
    return probe ? `${probe.level}${probe.pulses > 0 ? `, ${probe.pulses} ${probe.pulses === 1 ? 'pulse' : 'pulses'}` : ''}` : '';
  }
  const value = meters[meter.id];
  return value === undefined ? '' : siFormat(Math.abs(value) < 1e-9 ? 0 : value, meter.measures === 'volts' ? 'V' : 'A');
}

export const meterAt = (meter: PlanMeter): string => (meter.measures === 'amps' ? meter.leg : meter.at);

/** 'a12 against a14', or what its owner calls it */
export const meterName = (meter: PlanMeter): string =>
  meter.label ?? `${meterAt(meter)}${meter.measures === 'volts' && meter.against !== undefined ? ` against ${meter.against}` : ''}`;

/** 'a12', 'PS1.+', 'R3.1' → where it is; undefined if this bench has no such place. */
function spotOf(name: string, model: BenchModel, drawn: Drawn): Spot | undefined {
  if (name.includes('.')) {
    const dot = name.indexOf('.');
    return drawn.legSpots.get(name.slice(0, dot))?.get(name.slice(dot + 1));
  }
  const hole = readHole(name, model.plan.boards);
  return hole.ok ? holeSpot(hole.value) : undefined;
}

export interface MeterTags {
  readonly root: SVGGElement;
  show(readings: Readings): void;
}

/** Where a tag stands unless it was moved, from where it measures [pitch]: the first place where no other tag stands. */
const USUAL: readonly Spot[] = [
  [0.6, -2.2],
  [0.6, 4],
  [0.6, -4.4],
  [-5.4, -2.2],
  [-5.4, 4],
  [5.6, -2.2],
];
/** Its height, a letter's width, and its least width [drawing units]. */
const [TALL, LETTER, LEAST_WIDE] = [36, 9.1, 92];

/** What touches the bench: a tip, a ring round a leg, a pointed probe. */
const TIPS: Readonly<Record<PlanMeter['measures'], string>> = {
  volts: 'M-4.5 0a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0z',
  amps: 'M-8 0a8 8 0 1 0 16 0a8 8 0 1 0 -16 0zM-5 0a5 5 0 1 1 10 0a5 5 0 1 1 -10 0z',
  level: 'M-5.5 -7L5.5 -7L0 4z',
};

/** scale: pixels to a drawing unit now; moved: a tag has been dragged to this place. */
export function drawMeters(model: BenchModel, drawn: Drawn, scale: () => number, moved: (meter: PlanMeter, tag: Spot) => void): MeterTags {
  const placed: Box[] = [];
  const tags = model.plan.meters.flatMap((meter) => {
    const spot = spotOf(meterAt(meter), model, drawn);
    if (!spot) return [];
    const name = meterName(meter);
    const wide = Math.max(LEAST_WIDE, name.length * 6.6 + 16, meter.measures === 'level' ? 11 * LETTER : 0);
    const figure = el('text', { x: wide / 2, y: -7, class: 'tag-figure' }, '');
    const line = el('path', { class: 'tag-line' });
    const card = el(
      'g',
      { class: 'tag-card', 'data-meter': meter.id },
      el('rect', { y: -TALL, width: wide, height: TALL, rx: 5 }),
      el('text', { x: wide / 2, y: -22, class: 'tag-name' }, name),
      figure,
    );
    const put = ([x, y]: Spot) => {
      card.setAttribute('transform', `translate(${x * U} ${y * U})`);
      line.setAttribute('d', `M0 0L${x * U + Math.min(14, wide / 2)} ${y * U - (y > 0 ? TALL : 0)}`);
    };
    const boxAt = ([x, y]: Spot): Box => ({ x: spot[0] + x, y: spot[1] + y - TALL / U, width: wide / U, height: TALL / U });
    const tag = meter.tag ?? USUAL.find((u) => placed.every((b) => overlap(b, boxAt(u)) === 0)) ?? [0.6, -2.2];
    placed.push(boxAt(tag));
    put(tag);
    draggable(card, scale, tag, put, (to) => moved(meter, to));
    const root = el(
      'g',
      { class: 'meter-tag', transform: `translate(${spot[0] * U} ${spot[1] * U})` },
      el('g', { class: 'grown' }, line, el('path', { d: TIPS[meter.measures], class: 'tag-tip', 'fill-rule': 'evenodd' }), card),
    );
    return [{ meter, root, figure }];
  });
  return {
    root: el('g', { class: 'meter-tags', 'aria-hidden': 'true' }, ...tags.map((t) => t.root)),
    show(readings) {
      for (const { meter, figure } of tags) {
        const says = meterSays(meter, readings);
        if (figure.textContent !== says) figure.textContent = says;
      }
    },
  };
}

/** Moves with the pointer; let go it is told where it stands, and Escape or a lost pointer puts it back. */
function draggable(card: SVGGElement, scale: () => number, from: Spot, put: (at: Spot) => void, done: (at: Spot) => void) {
  let begun: readonly [x: number, y: number] | undefined;
  let at = from;
  card.addEventListener('pointerdown', (e) => {
    if (e.button !== 0) return;
    e.stopPropagation();
    card.setPointerCapture(e.pointerId);
    begun = [e.clientX, e.clientY];
  });
  card.addEventListener('pointermove', (e) => {
    if (!begun) return;
    e.stopPropagation();
    const unit = scale() * U;
    at = [from[0] + (e.clientX - begun[0]) / unit, from[1] + (e.clientY - begun[1]) / unit];
    put(at);
  });
  card.addEventListener('pointerup', () => {
    if (begun && at !== from) done([Math.round(at[0] * 10) / 10, Math.round(at[1] * 10) / 10]);
    begun = undefined;
  });
  card.addEventListener('lostpointercapture', () => {
    if (begun) put(from);
    begun = undefined;
  });
  // a tag is no place to measure at
  card.addEventListener('click', (e) => e.stopPropagation());
}
