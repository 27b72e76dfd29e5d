/** One lamp of several in a body: a bar, a point or a field that lights, and can be asked about. */
import type { Specimen } from '../../standing.ts';
import { brightness, brightnessStep } from '../glow.ts';
import { el, short } from '../svg.ts';
import { tappable } from '../touch.ts';
import type { Hand, Sight } from './face.ts';
import { lampInk, lampSays } from './lamp-look.ts';

interface Segment {
  readonly root: SVGGElement;
  show(sight: Sight): void;
}

/** d: its outline. */
export function drawSegment({ part }: Specimen, lamp: Specimen['lamps'][number], d: string, hand: Hand): Segment {
  const lit = el('path', { d, fill: lampInk(lamp.colour).lit, class: 'segment-lit', opacity: 0 });
  const root = el(
    'g',
    { class: 'segment', role: 'button', 'aria-label': `${lamp.name}, dark`, 'data-part': part.id, 'data-lamp': lamp.lamp },
    el('path', { d, class: 'segment-off' }),
    lit,
    el('path', { d, class: 'segment-hatch', fill: 'url(#undecided)' }),
  );
  tappable(root, { act: () => hand.ask(lamp.lamp) });
  let step = -1;
  let says = '';
  return {
    root,
    show({ lamps: now, gone }) {
      const reading = now.get(lamp.lamp);
      if (!reading) return;
      const next = reading.glow === 'undecided' || reading.glow === 'dark' ? 0 : brightnessStep(reading.amps);
      if (next !== step) {
        step = next;
        lit.setAttribute('opacity', next === 0 ? '0' : short(0.25 + 0.75 * Math.min(1, brightness(reading.amps))));
      }
      const words = lampSays(lamp.name, reading, gone.get(lamp.lamp));
      if (words === says) return;
      says = words;
      root.setAttribute('data-glow', reading.glow);
      root.setAttribute('aria-label', words);
    },
  };
}
