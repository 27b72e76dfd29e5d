/** One LED of several in a body: a bar, a point or a field that lights, and can be asked about. */
import type { PlacedPart } from '../../state/bench-model.ts';
import { brightness, brightnessStep } from '../brightness.ts';
import { tappable } from '../press-handlers.ts';
import { el, short } from '../svg.ts';
import type { FaceActions, Sight } from './face.ts';
import { ledInk, ledSays } from './led-look.ts';

interface Segment {
  readonly root: SVGGElement;
  show(sight: Sight): void;
}

/** d: its outline. */
export function drawSegment({ part }: PlacedPart, led: PlacedPart['leds'][number], d: string, actions: FaceActions): Segment {
  const lit = el('path', { d, fill: ledInk(led.colour).lit, class: 'segment-lit', opacity: 0 });
  const root = el(
    'g',
    { class: 'segment', role: 'button', 'aria-label': `${led.name}, dark`, 'data-part': part.id, 'data-led': led.led },
    el('path', { d, class: 'segment-off' }),
    lit,
    el('path', { d, class: 'segment-hatch', fill: 'url(#unknown-level)' }),
  );
  tappable(root, { act: () => actions.ask(led.led) });
  let step = -1;
  let says = '';
  return {
    root,
    show({ leds: now, gone }) {
      const reading = now.get(led.led);
      if (!reading) return;
      const next = reading.brightness === 'unknown' || reading.brightness === 'dark' ? 0 : brightnessStep(reading.amps);
      if (next !== step) {
        step = next;
        lit.setAttribute('opacity', next === 0 ? '0' : short(0.25 + 0.75 * Math.min(1, brightness(reading.amps))));
      }
      const words = ledSays(led.name, reading, gone.get(led.led));
      if (words === says) return;
      says = words;
      root.setAttribute('data-brightness', reading.brightness);
      root.setAttribute('aria-label', words);
    },
  };
}
