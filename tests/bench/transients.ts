/** Transients: the write pulse against a general ODE library at the same accuracy, and thirty bounces on a write network. */
import { GROUND, Network } from '../../sim-core/devices/network.ts';
import { type Action, readBenchText, type Simulation, simulate } from '../../sim-core/index.ts';
import { MEMORY, writeNetwork } from '../support/bench.ts';
import { byOdex, stepper } from '../support/stepping.ts';
import { atRestOpen, pinByHand, type WriteNetwork } from '../support/write-pulse.ts';
import { inTurns, median, ms, printTable, times, value } from './measure.ts';
import { keep } from './report.ts';

const CASE: WriteNetwork = { volts: 5, ohms: 680, farads: 1e-9, bleeder: 1e4, contact: 0.2, open: 10e9, pin: 6e-12 };
/** Looked at when it is down, at both thresholds on the way up, and near the end [s]. */
const TIMES = [20e-12, 10e-9, 119e-9, 354e-9, 2e-6];

function writeNetworkAsNodes(): Network {
  const network = new Network(2);
  // 5 V behind 680 Ω in one piece
  const supply = network.addSupply(0, GROUND, { volts: CASE.volts, ohms: CASE.ohms, amps: 1 });
  network.addCapacitor(0, GROUND, CASE.pin);
  network.addConductance(0, 1, 1 / CASE.contact);
  network.addCapacitor(1, GROUND, CASE.farads);
  network.addConductance(1, GROUND, 1 / CASE.bleeder);
  network.seal();
  network.switchSupply(supply, true);
  return network;
}

function writePulse(): void {
  const exact = pinByHand(CASE);
  const worst = (volts: readonly number[]) => Math.max(...volts.map((v, k) => Math.abs(v - exact(TIMES[k] ?? 0)) / CASE.volts));
  const { v, u } = atRestOpen(CASE);
  const network = writeNetworkAsNodes();
  const prepared = stepper(network);
  const { at, steps } = prepared([v, u], TIMES);
  const error = worst(at.map((x) => x[0] ?? 0));
  const rate = ([a = 0, b = 0]: readonly number[]) => {
    const i = (a - b) / CASE.contact;
    return [((CASE.volts - a) / CASE.ohms - i) / CASE.pin, (i - b / CASE.bleeder) / CASE.farads];
  };
  const theirs = (tolerance: number) => byOdex(rate, [v, u], TIMES, tolerance).map(([pin = 0]) => pin);
  // the loosest tolerance with which the library is as near as we are
  const tolerance = [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10].find((t) => worst(theirs(t)) <= error) ?? 1e-11;
  const [pulse, first, odex] = inTurns(
    [
      { work: () => void prepared([v, u], TIMES), times: 2000 },
      { work: () => void stepper(network)([v, u], TIMES), times: 200 },
      { work: () => void theirs(tolerance), times: 1 },
    ] as const,
    7,
  );
  keep('write pulse, prepared', pulse, 'ms', `${error.toExponential(1)} of 5 V`);
  keep('write pulse, with its preparation', first);
  printTable('Write pulse of 680 Ω and 1 nF, from the contact’s picoseconds to 2 µs, against the exact exponentials', [
    ['', 'ms', 'worst error, of 5 V', ''],
    ['ours, prepared', ms(pulse), error.toExponential(1), `${steps} steps`],
    ['ours, with its preparation', ms(first), error.toExponential(1), ''],
    [`odex, tolerance ${tolerance.toExponential(0)}`, ms(odex), worst(theirs(tolerance)).toExponential(1), times(odex / pulse)],
  ]);
}

/** The write network's button, pressed and let go thirty times at 3 to 32 µs, so that each opening makes a good part of a pulse. */
function bounce(sim: Simulation): void {
  const go = (act: Action, seconds: number) => {
    value(sim.begin(act));
    sim.wait(seconds);
  };
  for (let k = 0; k < 30; k++) {
    go({ do: 'press', part: 'SB1' }, 1e-6 * (3 + ((7 * k) % 30)));
    go({ do: 'release', part: 'SB1' }, 1e-6 * (3 + ((11 * k) % 30)));
  }
  sim.rest();
}

function thirtyBounces(): void {
  const plan = value(
    readBenchText(`${MEMORY}
    wire A1 black from a18 to -a17
    wire A2 black from a19 to -a18
    wire A3 red from i16 to +j20
    ${writeNetwork()}`),
  );
  const sim = value(simulate(plan, { bounce: false }));
  bounce(sim);
  const heard = sim.events.length;
  const took = median(() => bounce(sim), 7, 2);
  if (heard === 0 || sim.events.length < 10 * heard) throw new Error('the button’s pulses do not reach the memory');
  keep('thirty bounces', took);
  console.log(`  thirty bounces of the button on a memory’s write network, every pulse measured: ${ms(took)} ms`);
}

export function benchTransients(): void {
  writePulse();
  thirtyBounces();
}
