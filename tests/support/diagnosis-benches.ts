/** Sixteen healthy benches on which mistakes are planted: direct, buffered, with digits, bars, loads, split rails and gates, of 3 to 11 inputs. */
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { editContext } from '../../sim-core/document/edits/edit-context.ts';
import { apply, type BuildRequest, buildPlan, joinRails, partKind, partLookup } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { planOf } from './bench.ts';

export interface DiagnosisBench {
  readonly name: string;
  readonly plan: Plan;
}

type Shape = Pick<BuildRequest, 'show' | 'buffered'> & { readonly inputs: number; readonly outputs: number; readonly low?: true };

/** A table in which every output is on in some rows and off in others, as the builder makes it into a bench. */
function builtBench(name: string, seed: number, { inputs, outputs, low, show, buffered }: Shape): DiagnosisBench {
  const random = makeRandom(seed);
  const rows = Array.from({ length: 2 ** inputs }, () => Math.floor(random() * 2 ** outputs));
  const made = buildPlan({
    title: name,
    inputs: Array.from({ length: inputs }, (_, i) => `in ${i}`),
    outputs: Array.from({ length: outputs }, (_, i) => ({ name: `out ${i}`, ...(low && i % 2 === 1 ? { activeLow: true as const } : {}) })),
    rows,
    memory: 'eeprom-2kx8',
    byHand: false,
    show,
    buffered,
    amps: buffered ? 3e-3 : 2e-3,
  });
  if (!made.ok) throw new Error(`${name}: ${made.failure.says}`);
  return { name, plan: made.value };
}

const demo = (id: string): DiagnosisBench => {
  const plan = demoPlan(id);
  if (!plan) throw new Error(`no demonstration ${id}`);
  return { name: id, plan };
};

/** Every rail is cut in the middle, and wires join the halves. */
function onSplitRails({ name, plan }: DiagnosisBench): DiagnosisBench {
  const split = { ...plan, boards: plan.boards.map((b) => ({ ...b, splitRails: true })) };
  const context = editContext(split, partLookup);
  const joined = context.ok ? joinRails(context.value) : context;
  if (!joined.ok) throw new Error(joined.failure.says);
  return { name: `${name}, split rails`, plan: apply(split, joined.value) };
}

/** Three switches, an AND, an OR and an inverter, an LED on each; what is not used is on GND. */
function gates(): DiagnosisBench {
  const grounded = (holes: readonly string[], rail: string, from: number) =>
    holes.map((hole, i) => `wire G${rail[1]}${from + i} black from ${hole} to ${rail}${from + i}`);
  const plan = planOf(`
    board-63 B1
    bench-supply PS1
    switch PS1 set 1
    wire W1 red from PS1.+ to +j1
    wire W2 black from PS1.- to -j1
    wire W3 red from +j2 to +a2
    wire W4 black from -j2 to -a2
    dip-switch S1 at e4 with poles 3 named a b c
    wire W5 red from j4 to +j3
    wire W6 red from j5 to +j4
    wire W7 red from j6 to +j5
    resistor R1 10k from a4 to -a3
    resistor R2 10k from a5 to -a4
    resistor R3 10k from a6 to -a5
    quad-and U1 at e14
    capacitor C1 100n from j14 to -j10
    wire W8 red from i14 to +j10
    wire W9 black from a20 to -a15
    quad-or U2 at e26
    capacitor C2 100n from j26 to -j20
    wire W10 red from i26 to +j20
    wire W11 black from a32 to -a25
    hex-inverter U3 at e38
    capacitor C3 100n from j38 to -j30
    wire W12 red from i38 to +j30
    wire W13 black from a44 to -a35
    wire W14 yellow from b4 to b14
    wire W15 green from b5 to b15
    wire W16 blue from b16 to b26
    wire W17 white from b6 to b27
    wire W18 white from c27 to b38
    led LED1 red from f50 to e50 called x
    led LED2 red from f53 to e53 called y
    led LED3 red from f56 to e56 called z
    resistor R4 680 from a50 to -a41
    resistor R5 680 from a53 to -a43
    resistor R6 680 from a56 to -a46
    wire W19 orange from c16 to h50
    wire W20 orange from b28 to h53
    wire W21 orange from b39 to h56
    ${grounded(['a17', 'a18', 'a29', 'a30', 'a40', 'a42'], '-a', 16).join('\n')}
    ${grounded(['j19', 'j18', 'j16', 'j15', 'j31', 'j30', 'j28', 'j27', 'j43', 'j41', 'j39'], '-j', 32).join('\n')}`);
  const rows = Array.from({ length: 8 }, (_, row) => {
    const [a, b, c] = [row & 1, (row >> 1) & 1, (row >> 2) & 1] as const;
    return (a & b) | (((a & b) | c) << 1) | ((1 - c) << 2);
  });
  const wanted = {
    inputs: [
      { name: 'a', pin: 'U1.1A' },
      { name: 'b', pin: 'U1.1B' },
      { name: 'c', pin: 'U2.1B' },
    ],
    outputs: [
      { name: 'x', pin: 'U1.1Y' },
      { name: 'y', pin: 'U2.1Y' },
      { name: 'z', pin: 'U3.1Y' },
    ],
    rules: [],
    rows,
  };
  return { name: 'gates', plan: { ...plan, wanted } };
}

/** As it is meant to stand: with its supplies on. What its builder keeps of it is left out: whoever asks says whether it is known. */
function poweredOn({ name, plan: { meant: _, ...plan } }: DiagnosisBench): DiagnosisBench {
  const supplies = plan.parts.filter((p) => partKind(p.kind)?.group === 'supply');
  return { name, plan: { ...plan, switches: { ...plan.switches, ...Object.fromEntries(supplies.map((p) => [p.id, [true]])) } } };
}

let known: readonly DiagnosisBench[] | undefined;

/** Made once, for all tests of a worker. */
export function diagnosisBenches(): readonly DiagnosisBench[] {
  known ??= [
    demo('greenhouse'),
    demo('ferry-ramp'),
    demo('adding-machine'),
    demo('ticket-counter'),
    onSplitRails(demo('greenhouse')),
    gates(),
    builtBench('direct 3', 3, { inputs: 3, outputs: 4, show: 'leds', buffered: false }),
    builtBench('direct 5', 5, { inputs: 5, outputs: 3, show: 'leds', buffered: false }),
    builtBench('buffered 4, half active-low', 4, { inputs: 4, outputs: 6, show: 'leds', buffered: true, low: true }),
    builtBench('buffered 6', 6, { inputs: 6, outputs: 8, show: 'leds', buffered: true }),
    builtBench('buffered 8', 8, { inputs: 8, outputs: 5, show: 'leds', buffered: true }),
    builtBench('buffered 11', 11, { inputs: 11, outputs: 8, show: 'leds', buffered: true }),
    builtBench('digit 4', 14, { inputs: 4, outputs: 7, show: 'digit', buffered: true }),
    builtBench('digit 6, active-low', 16, { inputs: 6, outputs: 7, show: 'digit', buffered: true }),
    builtBench('bar 5', 15, { inputs: 5, outputs: 8, show: 'bar', buffered: true }),
    builtBench('loads 4', 24, { inputs: 4, outputs: 6, show: 'loads', buffered: true }),
  ].map(poweredOn);
  return known;
}
