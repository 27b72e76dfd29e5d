/** Logic probes: the level at a tie point, and the pulses that have passed there since a hand last did something. Costs nothing on a bench without one. */
import { GROUND } from '../../devices/network.ts';
import type { Circuit } from '../circuit/circuit.ts';
import { type NetReading, netLevel, type ProbeReading } from './readings.ts';

/** What a probe takes for low and for high [V]: the levels of inputs that are made for 5 V bipolar logic; common practice, no source. */
const [LOW, HIGH] = [0.8, 2];

interface Probe {
  readonly id: string;
  readonly net: number;
  readonly node: number;
  high: boolean | undefined;
  /** moves from low to high or back */
  moves: number;
}

export class Probes {
  private probes: Probe[] = [];

  /** is there one on this bench? */
  any(): boolean {
    return this.probes.length > 0;
  }

  /** the bench has been put together again */
  attach(circuit: Circuit): void {
    this.probes = circuit.plan.meters.flatMap((meter): Probe[] => {
      if (meter.measures !== 'level') return [];
      const tip = circuit.interconnect.atPoint(meter.at);
      if (!tip) return [];
      const old = this.probes.find((p) => p.id === meter.id);
      return [{ id: meter.id, net: tip.net.index, node: tip.node, high: old?.high, moves: old?.moves ?? 0 }];
    });
  }

  /** a hand does something: pulses are counted from here */
  begin(): void {
    for (const p of this.probes) p.moves = 0;
  }

  /** voltages at this moment */
  note(x: Float64Array): void {
    for (const p of this.probes) {
      const volts = p.node === GROUND ? 0 : (x[p.node] as number);
      if (volts > LOW && volts < HIGH) continue;
      const high = volts >= HIGH;
      if (p.high !== undefined && p.high !== high) p.moves += 1;
      p.high = high;
    }
  }

  read(nets: readonly NetReading[]): Readonly<Record<string, ProbeReading>> {
    return Object.fromEntries(
      this.probes.map((p) => {
        const net = nets[p.net];
        return [p.id, { level: net ? LETTERS[netLevel(net, LOW, HIGH)] : 'Z', pulses: Math.floor(p.moves / 2) }];
      }),
    );
  }
}

/** The letters of IEEE 1164 as a probe shows them: it tells not what holds a level. */
const LETTERS = { '0': 'L', '1': 'H', X: 'X', L: 'L', H: 'H', W: 'X', Z: 'Z' } as const;
