/**
 * A finger presses a button twice on a copy of the bench, in real time and with contact bounce, and takes its hand off in between: what can be read
 * meanwhile, what chips report, and what bounce alone does to chips that store.
 */

import type { Plan } from '../../shared/plan.ts';
import { holeName } from '../board/tie-points.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Simulation } from '../run/api.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipInput, ChipPin, ChipSite, ContactSite } from '../run/circuit/sites.ts';
import type { Readings } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import { STROBE } from './write-button.ts';

/** How long a finger stays on a button, and how long it is away between two presses [s]; common practice, no source. */
export const FINGER = 0.1;
export const AWAY = 0.5;
/** Of contact bounce: any press will do. */
const SEED = 1;
/** A bench that a clock keeps busy is left after so many turns: an instant of its 0.1 s tells the same. */
const MOST_TURNS = 20_000;

/** What came of two presses. */
export interface ButtonPress {
  readonly circuit: Circuit;
  readonly button: ContactSite;
  readonly before: Readings;
  /** at the end of the first press, and after it */
  readonly held: Readings;
  readonly released: Readings;
  /** in the first press, and in the second */
  readonly reports: readonly [readonly ChipEvent[], readonly ChipEvent[]];
  /** times that a pin's level went and came back in the first press */
  pulsesAt(pin: ChipInput): number;
  /** clocks that a contact that bounces moves more often than one that does not, where that leaves the chip with something else; times: in all */
  readonly disturbed: readonly { readonly chip: ChipSite; readonly pin: ChipInput; readonly times: number }[];
}

/** plan: supplies on, the switches where they are to stand. Undefined: it cannot be built. */
export function pressButton(plan: Plan, button: ContactSite): (ButtonPress & { readonly events: readonly ChipEvent[] }) | undefined {
  const pins = new Map<string, string>();
  const sim = startProbed(plan, true, pins);
  if (!sim) return undefined;
  const { circuit } = sim;
  const before = sim.readings();
  const first = pressOnce(sim, button);
  const count = sim.events.length;
  pressOnce(sim, button);
  const pulsesAt = (pin: ChipInput) => first.pulses.get(pins.get(keyOf(pin)) ?? '') ?? 0;
  return {
    circuit,
    button,
    before,
    held: first.held,
    released: first.released,
    reports: [sim.events.slice(0, count), sim.events.slice(count)],
    pulsesAt,
    disturbed: clocksOf(circuit).length > 0 ? disturbedOf(plan, button, circuit, first.released, pulsesAt) : [],
    events: sim.events,
  };
}

const keyOf = ({ leg }: ChipInput): string => `${leg.part.id}.${leg.pin}`;

/** The clocks of a bench, each with its chip. */
const clocksOf = (circuit: Circuit) =>
  circuit.chips.flatMap((chip) => chip.inputs.filter((pin) => pin.name === chip.spec.clock).map((pin) => ({ chip, pin })));

/** The bench with a logic probe at every pin whose pulses count; pins: which probe is whose. */
function startProbed(plan: Plan, bounce: boolean, pins: Map<string, string>): Simulation | undefined {
  const made = simulate(plan, { bounce, seed: SEED });
  if (!made.ok) return undefined;
  const { circuit } = made.value;
  const asked = [...clocksOf(circuit).map((c) => c.pin), ...circuit.chips.flatMap((c) => c.inputs.filter((i) => i.name === STROBE))];
  const probes = asked.flatMap((pin, i) => {
    if (!pin.leg.hole) return [];
    const id = `probe${i}`;
    pins.set(keyOf(pin), id);
    return [{ id, measures: 'level' as const, at: holeName(pin.leg.hole, plan.boards) }];
  });
  const probed = simulate({ ...plan, meters: [...plan.meters, ...probes] }, { bounce, seed: SEED });
  return probed.ok ? probed.value : undefined;
}

function pressOnce(sim: Simulation, { placed }: ContactSite) {
  const part = placed.part.id;
  const pulses = new Map<string, number>();
  const read = (seconds: number): Readings => {
    const slices = sim.waitInSlices(seconds);
    if (!slices.go(MOST_TURNS)) slices.stop();
    const readings = sim.readings();
    for (const [id, probe] of Object.entries(readings.probes)) pulses.set(id, (pulses.get(id) ?? 0) + probe.pulses);
    return readings;
  };
  sim.act({ do: 'press', part });
  const held = read(FINGER);
  sim.act({ do: 'release', part });
  const released = read(AWAY);
  return { held, released, pulses };
}

/** The same press without bounce tells what bounce does. */
function disturbedOf(
  plan: Plan,
  button: ContactSite,
  circuit: Circuit,
  bounced: Readings,
  pulsesAt: ButtonPress['pulsesAt'],
): ButtonPress['disturbed'] {
  const pins = new Map<string, string>();
  const clean = startProbed(plan, false, pins);
  if (!clean) return [];
  const once = pressOnce(clean, button);
  const levels = ({ chips }: Readings, chip: ChipSite, pins: readonly ChipPin[]) => {
    const own = chips.find((c) => c.part === chip.placed.part.id)?.pins ?? [];
    return pins.map((pin) => own.find((p) => p.pin === pin.leg.pin)?.level ?? '');
  };
  return clocksOf(circuit).flatMap(({ chip, pin }) => {
    const [now, clean] = [bounced, once.released].map((r) => levels(r, chip, chip.outputs)) as [string[], string[]];
    // what an edge leaves unknown though every input is known follows from what was stored before: it depends on how many there were
    const counts = clean.includes('X') && !levels(once.released, chip, chip.inputs).includes('X');
    const more = pulsesAt(pin) - (once.pulses.get(pins.get(keyOf(pin)) ?? '') ?? 0);
    return more > 0 && (counts || now.join() !== clean.join()) ? [{ chip, pin, times: 1 + more }] : [];
  });
}
