/** The circuit as a textbook writes it down: every junction and its own series resistance apart, with a node between them, and the plain exponential law. */
import { type CurrentAndSlope, type Junction, junctionLaw, readyJunction } from '../../sim-core/devices/device-models.ts';
import type { Device, Network } from '../../sim-core/devices/network.ts';
import type { Equations } from '../../sim-core/solve/equations.ts';
import { makePattern, slotOf } from '../../sim-core/solve/pattern.ts';

interface Led {
  readonly device: Device;
  readonly junction: Junction;
}

/** The nodes of the network come first, then one an LED. LEDs whose ends are both nodes or ground. */
export function textbook(network: Network, leds: readonly Led[]): Equations {
  const { n } = network;
  const size = n + leds.length;
  const at = leds.map(({ device, junction }, k) => {
    const [a, b] = network.nodesOf(device).map((node) => (node < 0 ? size : node)) as [number, number];
    return { a, b, middle: n + k, law: readyJunction(junction), ...junction };
  });
  const own: [number, number][] = [...network.couplings()].map(([a, b]) => [a, b]);
  const inside = (pairs: [number, number][], beyond: number) => pairs.filter(([a, b]) => a >= 0 && b >= 0 && a < beyond && b < beyond);
  const pattern = makePattern(
    size,
    inside(
      [
        ...own,
        ...at.flatMap(({ a, b, middle }): [number, number][] => [
          [a, middle],
          [middle, b],
        ]),
      ],
      size,
    ),
  );
  const place = (a: number, b: number) => slotOf(pattern, a === size ? b : a, b === size ? a : b);
  const slots = at.map(({ a, b, middle }) => ({
    upper: place(a, middle),
    lower: place(middle, b),
    folded: place(a === size ? b : a, b === size ? a : b),
  }));
  const map = mapSlots(network, pattern);
  const x0 = new Float64Array(n + 1);
  const values0 = new Float64Array(network.pattern.row.length + 1);
  const residual0 = new Float64Array(n + 1);
  const magnitude0 = new Float64Array(n + 1);
  const now: CurrentAndSlope = { i: 0, g: 0 };
  return {
    n: size,
    pattern,
    evaluate(x, residual, magnitude, jacobian) {
      x[size] = 0;
      x0.set(x.subarray(0, n));
      network.evaluate(x0, residual0, magnitude0, jacobian && values0);
      residual.fill(0);
      magnitude.fill(0);
      residual.set(residual0.subarray(0, n));
      magnitude.set(magnitude0.subarray(0, n));
      if (jacobian) {
        jacobian.fill(0);
        for (const [from, to] of map.entries()) jacobian[to] = values0[from] ?? 0;
      }
      const flow = (a: number, b: number, i: number) => {
        residual[a] = (residual[a] ?? 0) + i;
        residual[b] = (residual[b] ?? 0) - i;
      };
      for (const [k, { a, b, middle, law, is, nvt, rs }] of at.entries()) {
        const [va = 0, vb = 0, vm = 0] = [x[a], x[b], x[middle]];
        junctionLaw(va - vb, law, now);
        flow(a, b, -now.i);
        const { upper, lower, folded } = slots[k] ?? { upper: -1, lower: -1, folded: -1 };
        const e = is * Math.exp((va - vm) / nvt);
        flow(a, middle, e - is);
        flow(middle, b, (vm - vb) / rs);
        magnitude[middle] = Math.abs(e - is) + Math.abs(vm - vb) / rs;
        if (!jacobian) continue;
        jacobian[folded] = (jacobian[folded] ?? 0) - now.g;
        jacobian[upper] = (jacobian[upper] ?? 0) + e / nvt;
        jacobian[lower] = (jacobian[lower] ?? 0) + 1 / rs;
      }
    },
    addMass() {},
    massTimes() {},
  };
}

/** For each place of the network's own matrix, where it is in the larger one. */
function mapSlots({ pattern: from }: Network, to: Equations['pattern']): number[] {
  const places: number[] = [];
  for (let k = 0; k < from.n; k++)
    for (let p = from.start[k] ?? 0; p < (from.start[k + 1] ?? 0); p++)
      places[p] = slotOf(to, from.order[from.row[p] ?? 0] ?? 0, from.order[k] ?? 0);
  return places;
}
