/** One wire: paper-coloured edge, colour and live core; dashed when its net floats, saw-toothed where outputs contend. */
import type { PlanWire } from '../../shared/plan.ts';
import type { NetReading, WirePath } from '../../sim-core/index.ts';
import { U } from './geometry.ts';
import { el, short, through } from './svg.ts';
import { roughLength, samples } from './wire-path.ts';

/** Owners' colours as this drawing's inks; a colour not here is left to the browser. */
const INKS: Readonly<Record<string, string>> = {
  red: '#c8432f',
  black: 'var(--wire-black)',
  blue: '#4273b8',
  green: '#4f8f5e',
  yellow: '#d9b23a',
  orange: '#d98331',
  white: '#cdc6b6',
  grey: '#97948e',
  gray: '#97948e',
  brown: '#855638',
  violet: '#8661a8',
  purple: '#8661a8',
  pink: '#d98ca0',
  turquoise: '#3e9a97',
};

export const wireInk = (colour: string): string => INKS[colour] ?? colour;

export interface WireDrawing {
  readonly root: SVGGElement;
  show(drive: NetReading['drive'], core: string): void;
  /** along another path while it is dragged; undefined: along its own again */
  lay(path: WirePath | undefined): void;
  /** the number of its net, which other edits change */
  join(net: number): void;
}

const scaled = (path: WirePath) => path.map(([x, y]) => [x * U, y * U] as const);

const line = (path: WirePath): string => through(scaled(path));

const endsOf = (path: WirePath) => [scaled(path).at(0), scaled(path).at(-1)];

/** Teeth of a third of a pitch on both sides of the path. */
function zigzag(path: WirePath): string {
  const spots = samples(path, Math.max(8, 3 * roughLength(path)));
  const n = spots.length - 1;
  return through(
    spots.map(([x, y], i) => {
      const [px, py] = spots[Math.max(0, i - 1)] ?? [x, y];
      const [qx, qy] = spots[Math.min(n, i + 1)] ?? [x, y];
      const size = Math.hypot(qx - px, qy - py) || 1;
      const side = (i % 2 === 0 ? 1 : -1) * (i === 0 || i === n ? 0 : 0.26);
      return [(x - ((qy - py) / size) * side) * U, (y + ((qx - px) / size) * side) * U] as const;
    }),
  );
}

export function drawWire(wire: PlanWire, path: WirePath, net: number): WireDrawing {
  const d = line(path);
  const core = el('path', { d, class: 'wire-core' });
  const tips = endsOf(path).map((p) => el('circle', { cx: short(p?.[0] ?? 0), cy: short(p?.[1] ?? 0), r: 2.6, class: 'wire-tip' }));
  const root = el(
    'g',
    { class: 'wire', 'data-wire': wire.id, 'data-net': net },
    el('path', { d, class: 'wire-hit' }),
    el('path', { d, class: 'wire-halo' }),
    el('path', { d, class: 'wire-case' }),
    el('path', { d, class: 'wire-colour', style: `stroke:${wireInk(wire.colour)}` }),
    core,
    ...tips,
  );
  let teeth: SVGPathElement | undefined;
  let shown = '';
  let joined = net;
  let laid = path;
  return {
    root,
    lay(other = path) {
      if (other === laid) return;
      laid = other;
      const along = line(other);
      for (const drawn of root.querySelectorAll('path:not(.wire-teeth)')) drawn.setAttribute('d', along);
      for (const [i, p] of endsOf(other).entries()) {
        tips[i]?.setAttribute('cx', short(p?.[0] ?? 0));
        tips[i]?.setAttribute('cy', short(p?.[1] ?? 0));
      }
      if (teeth) teeth.setAttribute('d', zigzag(other));
    },
    join(n) {
      if (n !== joined) root.setAttribute('data-net', String(n));
      joined = n;
    },
    show(drive, colour) {
      if (colour !== shown) core.style.stroke = colour;
      shown = colour;
      if (root.dataset.drive === drive) return;
      root.dataset.drive = drive;
      if (drive === 'contention' && !teeth) {
        teeth = el('path', { d: zigzag(path), class: 'wire-teeth' });
        root.append(teeth);
      }
    },
  };
}
