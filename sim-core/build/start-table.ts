/** A table to begin with: its inputs from the switches that set a memory's address pins, its outputs from the data pins and the LEDs behind them. */

import { isPlainName } from '../../shared/column-name.ts';
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import type { Level } from '../parts/part.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, LedSite } from '../run/circuit/sites.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { switchedInputs } from '../run/switched-inputs.ts';

const MOST = 16;
/** of a table for a bench that has no memory yet */
const FIRST_INPUTS = 3;

/** Every cell is free. Refused where the plan cannot be built. Fails with `plan/…`. */
export function startTable(plan: Plan): Outcome<PlanWanted> {
  const { wanted: _, ...bare } = plan;
  const circuit = buildCircuit(bare, 'typical');
  if (!circuit.ok) return circuit;
  const sim = simulate(switchedOn(bare, circuit.value), { still: true });
  if (!sim.ok) return sim;
  const memories = circuit.value.chips.filter((c) => c.spec.word);
  const switched = switchedInputs(sim.value);
  const [first] = memories;
  const inputs = switched.slice(0, MOST).map(({ pin }, i, all) => {
    const [id, name] = pin.split('.') as [string, string];
    const named = all.findIndex((s) => s.pin.endsWith(`.${name}`));
    return { name: named === i ? name : `${id} ${name}`, pin };
  });
  const lines = {
    inputs: inputs.length > 0 ? inputs : firstInputs(first),
    outputs: memories.length > 0 ? outputsOf(circuit.value, memories, inputs) : [{ name: 'D0', pin: 'U1.D0' }],
  };
  const rows = Array.from({ length: 2 ** lines.inputs.length }, () => 0);
  return done({ ...lines, rules: [], rows, dontCare: rows.map(() => 2 ** lines.outputs.length - 1) });
}

function firstInputs(memory: ChipSite | undefined): PlanWanted['inputs'] {
  const names = memory?.spec.word?.address ?? ['A0', 'A1', 'A2'];
  return names.slice(0, FIRST_INPUTS).map((name) => ({ name, pin: `${memory?.placed.part.id ?? 'U1'}.${name}` }));
}

/** Data pins with an LED, or, where no LED is to be found, all those of the first memory. */
function outputsOf(circuit: Circuit, memories: readonly ChipSite[], inputs: PlanWanted['inputs']): PlanWanted['outputs'] {
  const pins = memories.flatMap((chip) => (chip.spec.word?.data ?? []).map((name) => ({ chip, name, led: ledAt(circuit, chip, name) })));
  const lit = pins.filter((p) => p.led !== undefined);
  const taken = new Set(inputs.map((i) => i.name));
  return (lit.length > 0 ? lit : pins.filter((p) => p.chip === memories[0])).slice(0, MOST).map(({ chip, name, led }) => {
    const id = chip.placed.part.id;
    const label = led?.led.name === '' ? led.placed.part.label : undefined;
    const called = [label?.trim(), name].find((n) => n && isPlainName(n) && !taken.has(n)) ?? `${id} ${name}`;
    taken.add(called);
    return { name: called, pin: `${id}.${name}`, ...(led ? { led: led.id } : {}) };
  });
}

/** The one LED that is connected to a data pin by resistors alone, or behind a buffer or a driver that passes the pin on. */
function ledAt(circuit: Circuit, chip: ChipSite, name: string): LedSite | undefined {
  const leg = chip.outputs.find((o) => o.name === name)?.leg;
  if (!leg) return undefined;
  const leds = ledsBehind(circuit, circuit.netOf(leg).index, new Set());
  return leds.length === 1 ? leds[0] : undefined;
}

function ledsBehind(circuit: Circuit, net: number, passed: Set<number>): LedSite[] {
  const reach = reachOf(circuit);
  const nets = new Set([...reach.from(net, 'no LEDs').keys()].filter((n) => !isRail(circuit, n) && !passed.has(n)));
  for (const n of nets) passed.add(n);
  const leds = circuit.leds.filter((l) => nets.has(circuit.netOf(l.anode).index) || nets.has(circuit.netOf(l.cathode).index));
  const next = circuit.chips.flatMap((chip) =>
    chip.inputs.flatMap((pin, input) =>
      nets.has(circuit.netOf(pin.leg).index) ? chip.outputs.filter((_, output) => passesOn(circuit, chip, input, output)) : [],
    ),
  );
  return [...leds, ...next.flatMap((o) => ledsBehind(circuit, circuit.netOf(o.leg).index, passed))];
}

const isRail = (circuit: Circuit, net: number): boolean => reachOf(circuit).plus.has(net) || reachOf(circuit).minus.has(net);

/** Does this input alone decide the output, whatever comes to the inputs that no wire ties to a rail? */
function passesOn(circuit: Circuit, { spec, inputs }: ChipSite, input: number, output: number): boolean {
  const tied = inputs.map(({ leg }): Level => {
    const net = circuit.netOf(leg).index;
    return isRail(circuit, net) ? (reachOf(circuit).plus.has(net) ? 'H' : 'L') : 'X';
  });
  const [low, high] = (['L', 'H'] as const).map((level) => spec.answers?.(output, (k) => (k === input ? level : (tied[k] ?? 'X'))));
  return low !== undefined && low !== 'X' && high !== undefined && high !== 'X' && low !== high;
}
