/** A 5 mm LED from above: round flange with the flat at the cathode, lit as brightly as its current makes it. */

import { brightness, brightnessStep } from '../brightness.ts';
import { around, U } from '../geometry.ts';
import { tappable } from '../press-handlers.ts';
import { el, short } from '../svg.ts';
import { betweenHoles } from './bent-leg.ts';
import type { DrawFace } from './face.ts';
import { ledInk, ledSays } from './led-look.ts';

/** Flange and dome [pitch]: 5.0 mm across the dome is 1.97 pitches; drawn a little smaller so that neighbours two rows apart stay apart. */
const FLANGE = 0.94;
const DOME = 0.76;

export const drawLed: DrawFace = ({ part, leds }, { legs, actions }) => {
  const led = leds[0];
  const anode = legs.get(led?.anode ?? '1') ?? [0, 0];
  const cathode = legs.get(led?.cathode ?? '2') ?? [0, 0];
  const { middle, angle, wires } = betweenHoles(anode, cathode);
  const ink = ledInk(led?.colour ?? '');
  const r = FLANGE * U;
  const flat = 0.8 * r;
  const rise = Math.sqrt(r * r - flat * flat);
  const flange = el('path', { d: `M${short(flat)} ${short(-rise)}A${r} ${r} 0 1 0 ${short(flat)} ${short(rise)}Z`, class: 'led-flange' });
  const light = el('circle', { r: 2.1 * U, class: 'led-light', fill: `url(#light-${led?.colour})`, opacity: 0 });
  const lit = el('circle', { r: DOME * U, class: 'led-lit', fill: ink.lit, opacity: 0 });
  const hatch = el('circle', { r: DOME * U, class: 'led-hatch', fill: 'url(#unknown-level)' });
  const glass = el('circle', { r: DOME * U, class: 'led-glass' });
  glass.style.setProperty('--tint', ink.lit);
  const bench = `translate(${short(middle[0] * U)} ${short(middle[1] * U)})`;
  const over = el(
    'g',
    { class: 'led', transform: bench, role: 'button', 'data-part': part.id, 'data-led': led?.led, 'aria-label': `${led?.name}, dark` },
    light,
    el('circle', { r: 1.05 * U, class: 'focus-ring' }),
    el('g', { transform: `rotate(${short(angle)})` }, flange),
    glass,
    lit,
    hatch,
    el('path', { d: `M${-0.42 * U} ${-0.2 * U}A${0.47 * U} ${0.47 * U} 0 0 1 ${-0.1 * U} ${-0.46 * U}`, class: 'led-shine' }),
  );
  if (led) tappable(over, { act: () => actions.ask(led.led) });
  let step = -1;
  let seen = '';
  let says = '';
  return {
    body: el('g', { class: 'led' }, ...wires),
    over,
    box: around([middle], FLANGE),
    show({ leds: now, gone }) {
      const reading = led && now.get(led.led);
      if (!reading) return;
      const next = reading.brightness === 'unknown' ? 0 : brightnessStep(reading.amps);
      if (next !== step) {
        step = next;
        const b = brightness(reading.amps);
        light.setAttribute('opacity', short(reading.brightness === 'dark' ? 0 : b * 0.9));
        lit.setAttribute('opacity', short(reading.brightness === 'dark' ? b * 0.25 : 0.2 + 0.8 * Math.min(1, b)));
      }
      if (reading.brightness !== seen) {
        seen = reading.brightness;
        over.setAttribute('data-brightness', seen);
      }
      const words = ledSays(led.name, reading, gone.get(led.led));
      if (words !== says) {
        says = words;
        over.setAttribute('aria-label', words);
      }
    },
  };
};
