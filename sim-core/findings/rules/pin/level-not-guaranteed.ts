/** An input that needs a higher level than the output before it guarantees: it works with typical outputs only. */

import { pull } from '../../../fixes/pull-resistor.ts';
import { type ChipSpec, thresholdsOf } from '../../../parts/part.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { ChipInput, ChipSite } from '../../../run/circuit/sites.ts';
import { inOhms, inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { leakageOn } from '../../../tolerance/at-rest.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { reachOf } from '../../resistive-reach.ts';
import { defineRule, toPin } from '../../rule.ts';
import type { RuleContext } from '../../rule-context.ts';

/** The usual pull-up [Ω]: common practice, no source. */
const USUAL = 10e3;

interface Data {
  readonly input: Ref;
  readonly output: Ref;
  /** guaranteed high, and what the input needs [V] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  /** how many pins of these two chips have the same */
  readonly pins: number;
  /** a pull-up [Ω] */
  readonly cure: number;
}

export const levelNotGuaranteed = defineRule<Data>({
  code: 'pin/level-not-guaranteed',
  severity: 'marginal',
  reads: 'moment',
  look: (scene) => {
    const { chips } = scene.circuit;
    // a pair of chips is spoken of once, at the first pins that connect them
    return chips.flatMap((listener) => chips.flatMap((driver) => tooLow(scene, listener, driver)));
  },
  message: ({ input, output, measured, limit, pins, cure }) =>
    say`${output} guarantees a high of only ${inVolts(measured)}, and ${input} needs ${inVolts(limit)}${pins > 1 ? ` (${pins} pins of the two chips alike)` : ''}: it works with typical outputs only. Use a receiving chip with TTL levels, or pull the pin up with ${inOhms(cure)}.`,
  fixes: ({ input, cure }, bench) => pull(bench, input, 'up', cure),
});

function tooLow(scene: RuleContext, listener: ChipSite, driver: ChipSite): readonly Data[] {
  const supply = scene.chip(listener.placed.part.id)?.supply ?? 0;
  const promised = promise(scene, driver);
  if (driver === listener || promised === undefined || supply < listener.spec.supplyRange[0]) return [];
  const connected = listener.inputs.flatMap((input: ChipInput) => {
    const net = scene.circuit.netOf(input.leg).index;
    const output = driver.outputs.find((o) => driver.spec.specialDrive?.[o.name] === undefined && scene.circuit.netOf(o.leg).index === net);
    const { vih } = thresholdsOf(input.figures, supply);
    return output && promised < vih && !lifted(scene.circuit, net, supply - vih) ? [{ input, output, vih }] : [];
  });
  const [first] = connected;
  if (!first) return [];
  return [
    {
      input: toPin(first.input.leg),
      output: toPin(first.output.leg),
      measured: promised,
      limit: first.vih,
      source: driver.spec.promises?.source ?? '',
      pins: connected.length,
      cure: USUAL,
    },
  ];
}

/** The high level that this chip's outputs guarantee now [V]; nothing for one without its supply. */
function promise(scene: RuleContext, { spec, placed }: ChipSite): number | undefined {
  const reading = scene.chip(placed.part.id);
  const { promises }: ChipSpec = spec;
  if (!promises || !reading || reading.supply < spec.supplyRange[0]) return undefined;
  return promises.of === 'supply' ? promises.high * reading.supply : promises.high;
}

/** Does a resistor to a supply's plus pull this net up to within `room` [V] of it, against all that may leak? */
function lifted(circuit: Circuit, net: number, room: number): boolean {
  const reach = reachOf(circuit);
  const leakage = leakageOn(circuit, net, -1);
  return [...reach.from(net, 'no LEDs', () => true)].some(([n, ohms]) => n !== net && reach.plus.has(n) && ohms * leakage <= room);
}

/** The memory's first data pin on an octal buffer's first input; the buffer's other inputs on minus. */
function listening(family: string): string {
  const idle = ['a40', 'a43', 'a45', 'a47', 'j41', 'j43', 'j45', 'j47', 'j49'];
  return memoryBench(`
    wire WWE from j15 to +j9
    wire WOE from j16 to -j9
    octal-buffer U2 ${family} at e40
    capacitor C2 100n from i40 to i37
    wire WC2 from j37 to -j28
    wire WV2 from j40 to +j30
    wire WG2 from a49 to -a40
    wire WD from a20 to a41
    ${idle.map((hole, i) => `wire WI${i} from ${hole} to -${hole[0]}${30 + i}`).join('\n')}`);
}

export const levelNotGuaranteedExamples = (): RuleExamples => ({
  bad: { points: 'U2.2', bench: listening('') },
  good: { bench: listening('HCT') },
});
