/** A write network whose capacitor is discharged while its contact still bounces: each bounce makes another write pulse. */

import { setParams } from '../../../document/edits/properties.ts';
import type { Fix } from '../../../fixes/fix.ts';
import { thresholdsOf } from '../../../parts/part.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { Branch, ChipInput, ContactSite } from '../../../run/circuit/sites.ts';
import { inOhms, inSeconds, inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { nextUpIn } from '../../../units/e-series.ts';
import { contactSide } from '../../contact-sides.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { STROBE } from '../../write-button.ts';

/** How much smaller than they are drawn the resistor and the capacitor of the cure may be together: 5 % and 10 %. */
const LEAST_SHARE = 0.95 * 0.9;

/** Above this [Ω] what the contact lets through while it is open, at least 100 MΩ, charges the capacitor to more than a low level; our choice. */
const MOST_DISCHARGE = 10e6;

interface Data {
  readonly resistor: Ref;
  readonly button: Ref;
  readonly pin: Ref;
  /** where the pin falls to once the contact closes again after its longest bounce, and where it would still be high [V] */
  readonly measured: number;
  readonly limit: number;
  /** of that bounce, and of the discharge [s] */
  readonly bounce: number;
  readonly discharge: number;
  /** the discharge resistor that outlasts it [Ω]; absent: it would be so large that leakage of the open contact charged the capacitor */
  readonly cure?: number;
}

export const bounceWritesAgain = defineRule<Data>({
  code: 'memory/bounce-writes-again',
  severity: 'marginal',
  reads: 'wiring',
  look: (circuit) =>
    circuit.chips.flatMap((chip) => {
      const strobe = chip.spec.word && chip.inputs.find((pin) => pin.name === STROBE);
      return strobe ? circuit.contacts.flatMap((contact) => repeated(circuit, strobe, contact)) : [];
    }),
  message: ({ resistor, button, pin, measured, limit, bounce, discharge, cure }) =>
    say`One press of ${button} can write several times: its contact bounces for up to ${inSeconds(bounce)}, ${resistor} discharges the capacitor in ${inSeconds(discharge)} (time constant), and each bounce pulls ${pin} down to ${inVolts(measured)} (high from ${inVolts(limit)}). ${cure === undefined ? 'Use a larger capacitor with a smaller pull-up resistor, and a larger discharge resistor' : say`Use ${inOhms(cure)} or more`}.`,
  fixes: ({ resistor, cure }, { context }): Fix[] => {
    const change = cure === undefined ? undefined : setParams(context, resistor.id, { ohms: cure });
    return change?.ok && cure !== undefined ? [{ says: say`Set ${resistor} to ${inOhms(cure)}`, change: change.value }] : [];
  },
});

function repeated(circuit: Circuit, strobe: ChipInput, contact: ContactSite): Data[] {
  const { network } = circuit;
  const volts = Math.max(0, ...circuit.supplies.map((s) => network.supplyOf(s.device).volts));
  const { bounce } = contact.contact;
  const limit = thresholdsOf(strobe.figures, volts).vih;
  const pulse = pulseCapacitor(circuit, strobe.leg, contact);
  if (!pulse || volts <= limit) return [];
  const ends = pulse.legs.map((leg) => circuit.netOf(leg).index);
  const beside = circuit.branches.filter(
    ({ device, placed, legs }) =>
      device.kind === 'conductance' && placed.kind.spread?.of === 'ohms' && legs.every((leg) => ends.includes(circuit.netOf(leg).index)),
  );
  const [resistor] = beside;
  if (!resistor) return [];
  const siemens = beside.reduce((sum, b) => sum + network.conductance(b.device), 0);
  const farads = network.faradsOf(pulse.device);
  const discharge = farads / siemens;
  // to the millivolt: nobody reads more of it
  const measured = Math.round(1e3 * volts * Math.exp(-bounce.most / discharge)) / 1e3;
  if (measured >= limit) return [];
  const cure = nextUpIn('E12', bounce.most / Math.log(volts / limit) / (farads * LEAST_SHARE));
  return [
    {
      resistor: toPart(resistor.placed),
      button: toPart(contact.placed),
      pin: toPin(strobe.leg),
      measured,
      limit,
      bounce: bounce.most,
      discharge,
      ...(cure <= MOST_DISCHARGE ? { cure } : {}),
    },
  ];
}

/** A capacitor that this contact puts between the strobe and a supply's minus: either may be next to the strobe. */
function pulseCapacitor(circuit: Circuit, strobe: ChipInput['leg'], contact: ContactSite): Branch | undefined {
  const net = (leg: Branch['legs'][number]) => circuit.netOf(leg).index;
  const isMinus = (n: number) => circuit.supplies.some((s) => net(s.minus) === n);
  const isStrobe = (n: number) => n === net(strobe);
  const [one, other] = contact.legs.map((leg) => netsOf(circuit, contact, leg));
  // sides that are one net switch nothing
  if (!one || !other || [...one].some((n) => other.has(n))) return undefined;
  /** from the capacitor through this side of the contact to the other one */
  const through = (here: ReadonlySet<number>, there: ReadonlySet<number>, near: number, far: number) =>
    here.has(near) && ((isStrobe(far) && [...there].some(isMinus)) || (isMinus(far) && [...there].some(isStrobe)));
  return circuit.branches.find(({ device, legs }) => {
    const [a, b] = [net(legs[0]), net(legs[1])];
    const ways = [through(one, other, a, b), through(one, other, b, a), through(other, one, a, b), through(other, one, b, a)];
    return device.kind === 'capacitor' && ways.includes(true);
  });
}

const netsOf = (circuit: Circuit, contact: ContactSite, leg: ContactSite['legs'][number]): ReadonlySet<number> =>
  new Set(contactSide(circuit, contact, leg).map((l) => circuit.netOf(l).index));

export const bounceWritesAgainExamples = (): RuleExamples => ({
  bad: { points: 'RC', bench: memoryBench(DATA_5A + writeButton('1n')) },
  good: { bench: memoryBench(DATA_5A + writeButton('1n').replace('RC 100k', 'RC 8M2')) },
});
