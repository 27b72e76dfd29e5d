/**
 * Whole circuits on a board, from the text to the readings, against closed forms and general numerical libraries (ml-matrix for systems of equations and
 * eigenvalues, odex for differential equations); the relative error of each is printed.
 */
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { afterAll, describe, expect, test } from 'vitest';
import { GREEN, type Law, nodal, RED, shockley, transistorByNewton, VT } from '../support/reference-circuits.ts';
import { type Schematic, schematic, supplied } from '../support/schematic.ts';
import { byOdex, zeroOf } from '../support/stepping.ts';

const supplyAmps = ({ sim }: Schematic) => sim.readings().supplies[0]!.amps;
const ledAmps = ({ sim }: Schematic, led: string) => sim.readings().leds.find((l) => l.led === led)!.amps;

/** Pairs of what we say and what it has to be. */
type Pairs = ReadonlyArray<readonly [ours: number, theirs: number]>;
interface Circuit {
  readonly says: string;
  /** relative error that is allowed */
  readonly within: number;
  pairs(): Pairs;
}

/** The twelve edges of a cube between corners whose numbers differ in one bit. */
const EDGES = Array.from({ length: 8 }, (_, c) => [1, 2, 4].filter((bit) => !(c & bit)).map((bit) => [c, c | bit] as const)).flat();

const AT_REST: readonly Circuit[] = [
  {
    says: 'bridge of five resistors, out of balance (ml-matrix)',
    within: 1e-7,
    pairs: () => {
      const s = schematic(`${supplied('P', 'N', 9, 0.5)}
        resistor R1 1k from {P} to {A}
        resistor R2 2.2k from {A} to {N}
        resistor R3 1.5k from {P} to {B}
        resistor R4 1.8k from {B} to {N}
        resistor R5 470 from {A} to {B}`);
      const v = nodal(
        3,
        [
          [1, 0, 0.5],
          [1, 2, 1e3],
          [2, 0, 2.2e3],
          [1, 3, 1.5e3],
          [3, 0, 1.8e3],
          [2, 3, 470],
        ],
        { 1: 9 / 0.5 },
      ); // prettier-ignore
      return [
        [s.volts('A', 'N'), v[2]!],
        [s.volts('B', 'N'), v[3]!],
        [supplyAmps(s), (9 - v[1]!) / 0.5],
      ];
    },
  },
  {
    says: 'balanced bridge: nothing flows across (closed form)',
    within: 1e-7,
    pairs: () => {
      const s = schematic(`${supplied('P', 'N', 5, 1e-3)}
        resistor R1 1k from {P} to {A}
        resistor R2 3k from {A} to {N}
        resistor R3 2k from {P} to {B}
        resistor R4 6k from {B} to {N}
        resistor R5 10 from {A} to {B}`);
      // 1 + the difference, so that its relative error is its error in V
      return [
        [1 + s.volts('A', 'B'), 1],
        [supplyAmps(s), 5 / (1e-3 + 1 / (1 / 4e3 + 1 / 8e3))],
      ];
    },
  },
  {
    says: 'R-2R ladder of four bits, all sixteen codes: V·code/16',
    within: 1e-7,
    pairs: () =>
      Array.from({ length: 16 }, (_, code) => {
        const bit = (b: number) => ((code >> b) & 1 ? 'P' : 'N');
        const s = schematic(`${supplied('P', 'N', 5)}
          resistor RT 20k from {N} to {L0}
          ${[0, 1, 2, 3].map((b) => `resistor RB${b} 20k from {L${b}} to {${bit(b)}}`).join('\n')}
          ${[1, 2, 3].map((b) => `resistor RS${b} 10k from {L${b - 1}} to {L${b}}`).join('\n')}`);
        return [1 + s.volts('L3', 'N'), 1 + (s.volts('P', 'N') * code) / 16] as const;
      }),
  },
  {
    says: 'three supplies on one load: Millman’s theorem',
    within: 1e-7,
    pairs: () => {
      const s = schematic(`${supplied('A', 'N', 5, 0.5, 1)}
        ${supplied('B', 'N', 9, 1.5, 2)}
        ${supplied('C', 'N', 3, 0.25, 3)}
        resistor R1 999.5 from {A} to {X}
        resistor R2 2198.5 from {B} to {X}
        resistor R3 469.75 from {C} to {X}
        resistor R4 1k from {X} to {N}`);
      const arms = [
        [5, 1e3],
        [9, 2.2e3],
        [3, 470],
        [0, 1e3],
      ] as const; // prettier-ignore
      const sum = (of: (e: number, r: number) => number) => arms.reduce((all, [e, r]) => all + of(e, r), 0);
      return [[s.volts('X', 'N'), sum((e, r) => e / r) / sum((_, r) => 1 / r)]];
    },
  },
  {
    says: 'ladder of ten equal sections: every voltage is a ratio of Fibonacci’s numbers',
    within: 1e-7,
    pairs: () => {
      const sections = 10;
      const s = schematic(`${supplied('X0', 'N', 10)}
        ${Array.from({ length: sections }, (_, k) => `resistor RS${k} 1k from {X${k}} to {X${k + 1}}\nresistor RP${k} 1k from {X${k + 1}} to {N}`).join('\n')}`);
      const F = [0, 1];
      while (F.length < 2 * sections + 2) F.push(F.at(-1)! + F.at(-2)!);
      const fed = s.volts('X0', 'N');
      // after k sections F(2(n − k) + 1)/F(2n + 1) of the voltage is left
      return Array.from(
        { length: sections },
        (_, k) => [s.volts(`X${k + 1}`, 'N'), (fed * F[2 * (sections - k - 1) + 1]!) / F[2 * sections + 1]!] as const,
      );
    },
  },
  {
    says: 'cube of twelve resistors: 5/6 R across its diagonal, 3/4 R across a face, 7/12 R along an edge',
    within: 1e-7,
    pairs: () =>
      (
        [
          [7, 5 / 6],
          [3, 3 / 4],
          [1, 7 / 12],
        ] as const
      ).map(([corner, share]) => {
        // prettier-ignore
        const s = schematic(`${supplied(`C${corner}`, 'C0', 6)}
          ${EDGES.map(([a, b], i) => `resistor R${i} 1k from {C${a}} to {C${b}}`).join('\n')}`);
        return [s.volts(`C${corner}`, 'C0') / supplyAmps(s), share * 1e3] as const;
      }),
  },
  {
    says: 'potentiometer with a load at its wiper, ends and between (closed form)',
    within: 1e-7,
    pairs: () =>
      [0.1, 0.25, 0.5, 0.8].map((w) => {
        const s = schematic(`${supplied('P', 'N', 5)}
          potentiometer RV1 10k at a60 with wiper ${w}
          wire W1 from b60 to {N}
          wire W2 from b61 to {X}
          wire W3 from b62 to {P}
          resistor RL 4.7k from {X} to {N}`);
        const lower = 1 / (1 / (1e4 * w) + 1 / 4.7e3);
        return [s.volts('X', 'N'), (s.volts('P', 'N') * lower) / (lower + 1e4 * (1 - w))] as const;
      }),
  },
  {
    says: 'red and green LED side by side behind one resistor (Shockley’s law, bisection)',
    within: 1e-7,
    pairs: () => {
      const s = schematic(`${supplied('P', 'N', 5)}
        resistor R1 220 from {P} to {A}
        led LED1 red from {A} to {N}
        led LED2 green from {A} to {N}`);
      const v = zeroOf((v) => (5 - v) / 220.001 - shockley(v, RED) - shockley(v, GREEN), 0, 5);
      return [
        [s.volts('A', 'N'), v],
        [ledAmps(s, 'LED1'), shockley(v, RED)],
        [ledAmps(s, 'LED2'), shockley(v, GREEN)],
      ];
    },
  },
  {
    says: 'three LEDs in a row behind one resistor (Shockley’s law, bisection)',
    within: 1e-7,
    pairs: () => {
      const s = schematic(`${supplied('P', 'N', 9)}
        resistor R1 330 from {P} to {A}
        led LED1 red from {A} to {B}
        led LED2 green from {B} to {C}
        led LED3 red from {C} to {N}`);
      const drop = (i: number, { is, nvt, rs }: Law) => i * rs + nvt * Math.log1p(i / is);
      const amps = zeroOf((i) => 9 - i * 330.001 - 2 * drop(i, RED) - drop(i, GREEN), 0, 0.03);
      return [
        [ledAmps(s, 'LED2'), amps],
        [s.volts('B', 'C'), drop(amps, GREEN)],
      ];
    },
  },
  {
    says: 'two supplies behind a diode each, on one load (Shockley’s law, bisection)',
    within: 1e-7,
    pairs: () => {
      const s = schematic(`${supplied('A', 'N', 5, 1e-3, 1)}
        ${supplied('B', 'N', 4.95, 1e-3, 2)}
        diode D1 from {A} to {X}
        diode D2 from {B} to {X}
        resistor RL 470 from {X} to {N}`);
      // 0.72 V at 10 mA with n = 1.75 and 1 Ω: the part's own figures, from memory
      const nvt = 1.75 * VT;
      const law: Law = { is: 10e-3 / Math.expm1((0.72 - 10e-3) / nvt), nvt, rs: 1.001 };
      const v = zeroOf((v) => shockley(5 - v, law) + shockley(4.95 - v, law) - v / 470, 0, 5);
      return [[s.volts('X', 'N'), v]];
    },
  },
  {
    says: 'transistor with divider and emitter resistor (Ebers and Moll, Newton’s method on ml-matrix)',
    within: 1e-6,
    pairs: () => {
      const s = schematic(`${supplied('P', 'N', 9)}
        npn-transistor Q1 at a60 with gain 150
        wire WE from b60 to {E}
        wire WB from b61 to {B}
        wire WC from b62 to {C}
        resistor R1 33k from {P} to {B}
        resistor R2 10k from {B} to {N}
        resistor RC 2.2k from {P} to {C}
        resistor RE 1k from {E} to {N}`);
      const v = transistorByNewton();
      return [
        [s.volts('B', 'N'), v[0]!],
        [s.volts('C', 'N'), v[1]!],
        [s.volts('E', 'N'), v[2]!],
      ];
    },
  },
];

/** A node's voltage at these times after an act; without one the supply is switched on, all capacitors being empty. */
function after(lines: string, node: string, times: readonly number[], act?: { readonly part: string }): number[] {
  const s = schematic(act ? lines : lines.replace(/switch PS1 set 1/, ''), { bounce: false });
  s.sim.begin({ do: 'set', part: act?.part ?? 'PS1', pole: 0, closed: true });
  const begun = s.sim.now;
  return times.map((t) => {
    s.sim.wait(begun + t - s.sim.now);
    return s.volts(node, 'N');
  });
}

const IN_TIME: readonly Circuit[] = [
  {
    says: 'a charged capacitor shares with an empty one through a switch (odex), C1·V/(C1 + C2) each in the end',
    within: 1e-4,
    pairs: () => {
      const [c1, c2, feed, bleed, open] = [10e-6, 4.7e-6, 10e6, 1e6, 10e9];
      const times = [1e-3, 2e-3, 5e-3, 40e-3];
      const seen = after(
        `${supplied('P', 'N', 5)}
        resistor RF ${feed} from {P} to {A}
        capacitor C1 ${c1} from {A} to {N}
        dip-switch S1 at e62 with poles 1
        wire S1A from a62 to {A}
        wire S1B from j62 to {B}
        resistor R1 1k from {B} to {X}
        capacitor C2 ${c2} from {X} to {N}
        resistor RB ${bleed} from {X} to {N}`,
        'X',
        times,
        { part: 'S1' },
      );
      // 0.1 Ω and 10 GΩ of the contact, closed and open
      const i0 = 5 / (feed + open + 1e3 + bleed);
      const rate = ([a = 0, x = 0]: readonly number[]) => [((5 - a) / feed - (a - x) / 1000.1) / c1, ((a - x) / 1000.1 - x / bleed) / c2];
      const states = byOdex(rate, [5 - i0 * feed, i0 * bleed], times, 1e-10);
      return times.map((_, i) => [seen[i]!, states[i]![1]!] as const);
    },
  },
  {
    says: 'three RC stages in a row follow a step (eigenvalues by ml-matrix)',
    within: 2e-5,
    pairs: () => {
      const [r, c] = [
        [1e3, 2.2e3, 4.7e3],
        [1e-6, 470e-9, 100e-9],
      ]; // prettier-ignore
      const times = [1e-3, 2e-3, 5e-3, 10e-3];
      const seen = after(
        `${supplied('A', 'N', 5)}
        ${[0, 1, 2].map((k) => `resistor R${k} ${r![k]} from {${k === 0 ? 'A' : `X${k}`}} to {X${k + 1}}\ncapacitor C${k} ${c![k]} from {X${k + 1}} to {N}`).join('\n')}`,
        'X3',
        times,
      );
      const g = [1 / (r![0]! + 1e-3), 1 / r![1]!, 1 / r![2]!];
      const a = new Matrix([
        [-(g[0]! + g[1]!) / c![0]!, g[1]! / c![0]!, 0],
        [g[1]! / c![1]!, -(g[1]! + g[2]!) / c![1]!, g[2]! / c![1]!],
        [0, g[2]! / c![2]!, -g[2]! / c![2]!],
      ]);
      const eigen = new EigenvalueDecomposition(a);
      const share = solve(eigen.eigenvectorMatrix, Matrix.columnVector([-5, -5, -5])).to1DArray();
      return times.map(
        (t, i) =>
          [
            seen[i]!,
            5 + share.reduce((sum, s, k) => sum + s * Math.exp(eigen.realEigenvalues[k]! * t) * eigen.eigenvectorMatrix.get(2, k), 0),
          ] as const,
      );
    },
  },
  {
    says: 'a step through a capacitor into a resistor falls off: V·exp(−t/RC)',
    within: 2e-5,
    pairs: () => {
      const times = [1e-4, 5e-4, 1e-3, 3e-3];
      const seen = after(`${supplied('A', 'N', 5)}\ncapacitor C1 100n from {A} to {X}\nresistor R1 10k from {X} to {N}`, 'X', times);
      return times.map((t, i) => [seen[i]!, ((5 * 1e4) / (1e4 + 1e-3)) * Math.exp(-t / ((1e4 + 1e-3) * 100e-9))] as const); // prettier-ignore
    },
  },
  {
    says: 'a capacitor charges through a resistor and an LED (odex)',
    within: 1e-4,
    pairs: () => {
      const times = [2e-3, 5e-3, 10e-3, 20e-3];
      const seen = after(
        `${supplied('A', 'N', 5)}
        resistor R1 1k from {A} to {M}
        led LED1 red from {M} to {X}
        capacitor C1 4.7u from {X} to {N}
        resistor R2 100k from {X} to {N}`,
        'X',
        times,
      );
      const law = { ...RED, rs: RED.rs + 1e3 + 1e-3 };
      const states = byOdex(([v = 0]) => [(shockley(5 - v, law) - v / 100e3) / 4.7e-6], [0], times, 1e-10);
      return times.map((_, i) => [seen[i]!, states[i]![0]!] as const);
    },
  },
];

const printed: string[] = [];
describe.each([
  ['at rest', AT_REST],
  ['in time', IN_TIME],
] as const)('%s', (_, circuits) => {
  test.each(circuits)('$says', ({ says, within, pairs }) => {
    const errors = pairs().map(([ours, theirs]) => Math.abs(ours / theirs - 1));
    const worst = Math.max(...errors);
    printed.push(`  ${worst.toExponential(1).padStart(8)}  (allowed ${within})  ${says}`);
    expect(errors.length).toBeGreaterThan(0);
    expect(worst).toBeLessThan(within);
  });
});

afterAll(() => console.log(['Whole circuits, largest relative error:', ...printed].join('\n')));
