/** Inputs of gates whose outputs lead nowhere, left open: a CMOS gate whose input floats switches at random and draws current for it. */

import { feedPins } from '../../../fixes/join.ts';
import { listed, type Ref, say } from '../../../sentence/wording.ts';
import { servesNothing, unheldInputs } from '../../driven-inputs.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly chip: Ref;
  /** in order of pin number */
  readonly pins: readonly Ref[];
}

export const inputUnusedOpen = defineRule<Data>({
  code: 'input/unused-open',
  severity: 'marginal',
  reads: 'moment',
  look: (scene) => {
    const open = unheldInputs(scene).filter(({ chip, pin }) => servesNothing(scene.circuit, chip, pin));
    return [...new Set(open.map((o) => o.chip))].map((chip) => ({
      chip: toPart(chip.placed),
      pins: open.filter((o) => o.chip === chip).map((o) => toPin(o.pin.leg)),
    }));
  },
  message: ({ chip, pins }) =>
    say`${chip} has unused gates with open inputs: ${listed(pins)}. A floating input picks up noise, and its gate may switch at random. Wire ${pins.length > 1 ? 'each' : 'it'} to + or −.`,
  fixes: ({ pins }, bench) => feedPins(bench, pins, 'minus', say`Wire ${listed(pins)} to −`),
});

/** A quad NAND of which one gate lights an LED; `more` holds the inputs of the other three. */
const oneGate = (more: string) => `${FED}
  quad-nand U1 at e20
  capacitor C1 100n from i20 to i17
  wire WV from j20 to +j20
  wire WD from j17 to -j26
  wire WG from a26 to -j28
  wire WA from a20 to -j10
  wire WB from a21 to +j12
  resistor R1 330 from a22 to a40
  led LED1 from b40 to b44
  wire WL from a44 to -j40
  ${more}`;

export const inputUnusedOpenExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: oneGate('') },
  good: {
    bench: oneGate(['a23', 'a24', 'j21', 'j22', 'j24', 'j25'].map((hole, i) => `wire WU${i} from ${hole} to -j${30 + i}`).join('\n')),
  },
});
