/** An input that asks for a higher level than the output before it promises: typical outputs give more, so it works by luck. */
import { type ChipSpec, thresholdsOf } from '../../../parts/part.ts';
import type { ChipSite, Circuit } from '../../../run/circuit/circuit.ts';
import { leakageOn } from '../../driven-inputs.ts';
import { memoryBench } from '../../example-benches.ts';
import { toPin } from '../../refs.ts';
import { reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';
import type { RuleContext } from '../../rule-context.ts';

/** The usual resistor that lifts a level [Ω]: common practice, no source. */
const USUAL = 10e3;

export const levelNotGuaranteed = defineRule({
  code: 'pin/level-not-guaranteed',
  severity: 'marginal',
  reads: 'moment',
  look(scene) {
    const { chips } = scene.circuit;
    return chips.flatMap((listener) => {
      const supply = scene.chip(listener.placed.part.id)?.supply ?? 0;
      // a pair of chips is spoken of once, at the first pins that join them
      return chips.flatMap((driver) => {
        const promised = promise(scene, driver);
        if (driver === listener || promised === undefined) return [];
        const joined = listener.inputs.flatMap((input) => {
          const net = scene.circuit.netOf(input.leg).index;
          const output = driver.outputs.find(
            (o) => driver.spec.specialDrive?.[o.name] === undefined && scene.circuit.netOf(o.leg).index === net,
          );
          const { vih } = thresholdsOf(input.figures, supply);
          return output && promised < vih && !lifted(scene.circuit, net, supply - vih) ? [{ input, output, vih }] : [];
        });
        const [first] = joined;
        if (!first || supply < listener.spec.supplyRange[0]) return [];
        return [
          {
            at: [toPin(first.input.leg), toPin(first.output.leg)],
            data: { measured: promised, limit: first.vih, pins: joined.length, cure: USUAL, source: driver.spec.promises?.source ?? '' },
          },
        ];
      });
    });
  },
  bad: { points: 'U2.2', bench: listening('') },
  good: { bench: listening('family=HCT') },
});

/** The high level that this chip's outputs promise now [V]; nothing for one without its supply. */
function promise(scene: RuleContext, { spec, placed }: ChipSite): number | undefined {
  const reading = scene.chip(placed.part.id);
  const { promises }: ChipSpec = spec;
  if (!promises || !reading || reading.supply < spec.supplyRange[0]) return undefined;
  return promises.of === 'supply' ? promises.high * reading.supply : promises.high;
}

/** Does a resistor to a supply's plus lift this net to within `room` [V] of it, against all that may leak? */
function lifted(circuit: Circuit, net: number, room: number): boolean {
  const reach = reachOf(circuit);
  const leakage = leakageOn(circuit, net);
  return [...reach.from(net, 'no LEDs', () => true)].some(([n, ohms]) => n !== net && reach.plus.has(n) && ohms * leakage <= room);
}

/** The memory's first data pin on an octal buffer's first input; the buffer's other inputs on minus. */
function listening(params: string): string {
  const idle = ['a40', 'a43', 'a45', 'a47', 'j41', 'j43', 'j45', 'j47', 'j49'];
  return memoryBench(`
    WWE wire j15 +j9
    WOE wire j16 -j9
    U2 octal-buffer e40 ${params}
    C2 capacitor i40 i37 farads=100n
    WC2 wire j37 -j28
    WV2 wire j40 +j30
    WG2 wire a49 -a40
    WD wire a20 a41
    ${idle.map((hole, i) => `WI${i} wire ${hole} -${hole[0]}${30 + i}`).join('\n')}`);
}
