/** The write network solved by hand: two exponentials, and how long the pin stays below its levels. */

export interface WriteNetwork {
  readonly volts: number;
  readonly ohms: number;
  readonly farads: number;
  readonly bleeder: number;
  /** closed, and open [Ω]: while it was open, what it leaked left a little on C */
  readonly contact: number;
  readonly open: number;
  readonly pin: number;
}

/** /WE at v with pin capacitance p; C from /WE to the contact, bleeder across C. States: v, and u across C, with the contact just closed. */
export function atRestOpen(c: WriteNetwork): { readonly v: number; readonly u: number } {
  const leak = c.volts / (c.ohms + c.bleeder + c.open);
  return { v: c.volts - leak * c.ohms, u: leak * c.bleeder };
}

/** p·v′ = (V − v)/R − i, i = (v − u)/r through the contact, C·u′ = i − u/B. Solved exactly by the two eigenvalues: v at each time. */
export function pinByHand(c: WriteNetwork): (t: number) => number {
  const a = -(1 / c.ohms + 1 / c.contact) / c.pin;
  const b = 1 / c.contact / c.pin;
  const d = 1 / c.contact / c.farads;
  const e = -(1 / c.contact + 1 / c.bleeder) / c.farads;
  const rest = c.volts * ((c.bleeder + c.contact) / (c.bleeder + c.contact + c.ohms));
  const restU = (rest * c.bleeder) / (c.bleeder + c.contact);
  const half = (a + e) / 2;
  const root = Math.sqrt(half * half - (a * e - b * d));
  const fast = half - root;
  const slow = (a * e - b * d) / fast;
  // (v, u) − rest = α·(1, (λ₁ − a)/b)·e^{λ₁t} + β·(1, (λ₂ − a)/b)·e^{λ₂t}
  const s1 = (fast - a) / b;
  const s2 = (slow - a) / b;
  const begin = atRestOpen(c);
  const v0 = begin.v - rest;
  const u0 = begin.u - restU;
  const beta = (u0 - s1 * v0) / (s2 - s1);
  const alpha = v0 - beta;
  return (t) => rest + alpha * Math.exp(fast * t) + beta * Math.exp(slow * t);
}

/** How long the pin stays below 0.8 and below 2.0 V [s]. */
export function writePulseByHand(c: WriteNetwork): { readonly guaranteedLow: number; readonly maximumLow: number } {
  const at = pinByHand(c);
  const cross = (level: number, from: number, to: number) => {
    let [low, high] = [from, to];
    for (let i = 0; i < 200; i++) {
      const middle = (low + high) / 2;
      if (at(middle) > level === at(high) > level) high = middle;
      else low = middle;
    }
    return (low + high) / 2;
  };
  const bottom = 50e-12;
  const late = 5 * c.ohms * c.farads;
  return {
    guaranteedLow: cross(0.8, bottom, late) - cross(0.8, 0, bottom),
    maximumLow: cross(2.0, bottom, late) - cross(2.0, 0, bottom),
  };
}
