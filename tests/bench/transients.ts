/** Transients: the write pulse against a general ODE library at the same accuracy, and thirty bounces on a write network. */
import { GROUND, Network } from '../../sim-core/devices/network.ts';
import { readBenchText, type Simulation, simulate } from '../../sim-core/index.ts';
import { MEMORY, writeNetwork } from '../support/bench.ts';
import { byOdex, stepped } from '../support/stepping.ts';
import { atRestOpen, pinByHand, type WriteNetwork } from '../support/write-pulse.ts';
import { inTurns, median, ms, printTable, times } from './measure.ts';

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
  const ours = () => stepped(network, [v, u], TIMES);
  const { at, steps } = ours();
  const error = worst(at.map((x) => x[0] ?? 0));
  const rate = ([a = 0, b = 0]: readonly number[]) => {
    const i = (a - b) / CASE.contact;
    return [((CASE.volts - a) / CASE.ohms - i) / CASE.pin, (i - b / CASE.bleeder) / CASE.farads];
  };
  const theirs = (tolerance: number) => byOdex(rate, [v, u], TIMES, tolerance).map(([pin = 0]) => pin);
  // the loosest tolerance with which the library is as near as we are
  const tolerance = [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10].find((t) => worst(theirs(t)) <= error) ?? 1e-11;
  const [mine = Number.NaN, odex = Number.NaN] = inTurns(
    [
      { work: () => void ours(), times: 20 },
      { work: () => void theirs(tolerance), times: 1 },
    ],
    7,
  );
  printTable('Write pulse of 680 Ω and 1 nF, from the contact’s picoseconds to 2 µs, against the exact exponentials', [
    ['', 'ms', 'worst error, of 5 V', ''],
    ['ours, with its preparation', ms(mine), error.toExponential(1), `${steps} steps`],
    [`odex, tolerance ${tolerance.toExponential(0)}`, ms(odex), worst(theirs(tolerance)).toExponential(1), times(odex / mine)],
  ]);
}

/** The write network's button, pressed and let go thirty times at 3 to 32 µs, so that each opening makes a good part of a pulse. */
function bounce(sim: Simulation): void {
  for (let k = 0; k < 30; k++) {
    sim.begin({ do: 'press', part: 'SB1' });
    sim.wait(1e-6 * (3 + ((7 * k) % 30)));
    sim.begin({ do: 'release', part: 'SB1' });
    sim.wait(1e-6 * (3 + ((11 * k) % 30)));
  }
  sim.rest();
}

function thirtyBounces(): void {
  const plan = readBenchText(`${MEMORY}
    wire A1 black from a18 to -a17
    wire A2 black from a19 to -a18
    wire A3 red from i16 to +j20
    ${writeNetwork()}`);
  const built = plan.ok ? simulate(plan.value, { bounce: false }) : plan;
  if (!built.ok) throw new Error(built.failure.says);
  console.log(
    `  thirty bounces of the button on a memory’s write network, every pulse measured: ${ms(median(() => bounce(built.value), 7, 2))} ms`,
  );
}

export function benchTransients(): void {
  writePulse();
  thirtyBounces();
}
