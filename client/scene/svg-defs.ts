/** What drawings refer to: the light of each LED colour, and the hatching of an unknown level. */
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
