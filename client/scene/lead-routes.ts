/** The curve of every lead: from hole to hole, bowed so that it keeps off bodies, off lamps, and off the leads laid before it. */
import { type Box, holds, type Spot } from './geometry.ts';

/** A cubic curve by its four points [pitch]. */
export type Curve = readonly [Spot, Spot, Spot, Spot];

export interface Run {
  readonly id: string;
  readonly from: Spot;
  readonly to: Spot;
}

/** Bows tried, as shares of the length, the first being the one a hand would give it. */
const BOWS = [0.1, -0.1, 0.16, -0.16, 0.04, -0.04, 0.24, -0.24, 0.34, -0.34, 0.46, -0.46];
/** Cost of one sample inside a body, of one on another lead, and of a whole length of bow. */
const ON_BODY = 6;
const ON_LEAD = 1.2;
const PER_BOW = 9;

export const pointOn = ([a, b, c, d]: Curve, t: number): Spot => {
  const u = 1 - t;
  const [k0, k1, k2, k3] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return [k0 * a[0] + k1 * b[0] + k2 * c[0] + k3 * d[0], k0 * a[1] + k1 * b[1] + k2 * c[1] + k3 * d[1]];
};

export const samples = (curve: Curve, n: number): Spot[] => Array.from({ length: n + 1 }, (_, i) => pointOn(curve, i / n));

function bowed({ from, to }: Run, share: number): Curve {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  // the normal always points the same way for leads that run alike, so that bundles nest
  const flip = dx < 0 || (dx === 0 && dy < 0) ? -1 : 1;
  const [nx, ny] = [-dy * share * flip * 1.33, dx * share * flip * 1.33];
  return [from, [from[0] + dx * 0.22 + nx, from[1] + dy * 0.22 + ny], [from[0] + dx * 0.78 + nx, from[1] + dy * 0.78 + ny], to];
}

/** Curves by lead id. Short leads are laid first: they have the least choice. Ties go by the plan's order. */
export function layLeads(runs: readonly Run[], bodies: readonly Box[]): Map<string, Curve> {
  const laid = new Map<string, Curve>();
  /** cells of half a pitch that leads pass through */
  const busy = new Map<number, number>();
  const cell = ([x, y]: Spot) => Math.round(x * 2 + 4000) * 10000 + Math.round(y * 2 + 4000);
  const length = (r: Run) => Math.hypot(r.to[0] - r.from[0], r.to[1] - r.from[1]);
  for (const run of [...runs].sort((p, q) => length(p) - length(q))) {
    const long = length(run);
    const n = Math.max(6, Math.min(60, Math.round(long * 2)));
    let best: Curve | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const share of BOWS) {
      const curve = bowed(run, share);
      let cost = Math.abs(share) * PER_BOW * (0.4 + long / 20);
      for (const spot of samples(curve, n).slice(1, -1)) {
        for (const body of bodies) if (holds(body, spot, 0.1)) cost += ON_BODY;
        cost += ON_LEAD * Math.min(3, busy.get(cell(spot)) ?? 0);
      }
      if (cost < least) {
        least = cost;
        best = curve;
      }
    }
    if (!best) continue;
    laid.set(run.id, best);
    for (const key of new Set(samples(best, n * 2).map(cell))) busy.set(key, (busy.get(key) ?? 0) + 1);
  }
  return laid;
}
