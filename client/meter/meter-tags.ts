/** Meters on the drawing: a probe at the point or leg, and a tag with the live figure. */
import type { PlanMeter } from '../../shared/plan.ts';
import { holeSpot, type Readings, readHole, siFormat } from '../core.ts';
import { type Spot, U } from '../scene/geometry.ts';
import type { Drawn } from '../scene/picks.ts';
import { el } from '../scene/svg.ts';
import type { Standing } from '../standing.ts';

export const meterSays = (meter: PlanMeter, value: number | undefined): string =>
  value === undefined ? '' : siFormat(Math.abs(value) < 1e-9 ? 0 : value, meter.measures === 'volts' ? 'V' : 'A');

export const meterAt = (meter: PlanMeter): string => (meter.measures === 'volts' ? meter.at : meter.leg);

/** 'a12', 'PS1.+', 'R3.1' → where it is; undefined if this bench has no such place. */
function spotOf(name: string, standing: Standing, drawn: Drawn): Spot | undefined {
  if (name.includes('.')) {
    const dot = name.indexOf('.');
    return drawn.legSpots.get(name.slice(0, dot))?.get(name.slice(dot + 1));
  }
  const hole = readHole(name, standing.plan.boards);
  return 'problem' in hole ? undefined : holeSpot(hole);
}

export interface MeterTags {
  readonly root: SVGGElement;
  show(readings: Readings): void;
}

export function drawMeters(standing: Standing, drawn: Drawn): MeterTags {
  const tags = standing.plan.meters.flatMap((meter) => {
    const spot = spotOf(meterAt(meter), standing, drawn);
    if (!spot) return [];
    const figure = el('text', { x: 50, y: -31, class: 'tag-figure' }, '');
    const against = meter.measures === 'volts' && meter.against !== undefined ? ` against ${meter.against}` : '';
    const root = el(
      'g',
      { class: 'meter-tag', transform: `translate(${spot[0] * U} ${spot[1] * U})` },
      el(
        'g',
        { class: 'grown' },
        el('path', { d: 'M0 0L14 -26' }),
        el('circle', { r: 4.5 }),
        el('rect', { x: 10, y: -60, width: 80, height: 36, rx: 5 }),
        el('text', { x: 50, y: -46, class: 'tag-name' }, `${meterAt(meter)}${against}`),
        figure,
      ),
    );
    return [{ meter, root, figure }];
  });
  return {
    root: el('g', { class: 'meter-tags', 'aria-hidden': 'true' }, ...tags.map((t) => t.root)),
    show({ meters }) {
      for (const { meter, figure } of tags) {
        const says = meterSays(meter, meters[meter.id]);
        if (figure.textContent !== says) figure.textContent = says;
      }
    },
  };
}
