/** The one voltage that all blocks of a bench share, where what the supply gives is what they take together. */
import type { Network, Node } from '../../devices/network.ts';
import { RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from '../../solve/equations.ts';
import { slotOf } from '../../solve/pattern.ts';
import type { BlockClass } from './block-class.ts';

/** So many blocks of a class stand in this state. */
export interface Crowd {
  readonly class: BlockClass;
  readonly state: number;
  readonly count: number;
}

const MOST_STEPS = 50;

export class RailSolver {
  private readonly part: Network;
  private readonly x = new Float64Array(2);
  private readonly residual = new Float64Array(2);
  private readonly magnitude = new Float64Array(2);
  private readonly jacobian: Float64Array;
  private readonly diagonal: number;

  /** What stands between the rail and ground, and in no block, keeps the values that it has now. */
  constructor(whole: Network, rail: Node) {
    this.part = whole.extract([rail]);
    this.part.follow();
    this.jacobian = new Float64Array(this.part.pattern.row.length + 1);
    this.diagonal = slotOf(this.part.pattern, 0, 0);
  }

  /** The voltage at which these rest, from one that is near it; undefined if none was found. Each crowd's class then has its rest at it. */
  solve(from: number, crowds: readonly Crowd[]): number | undefined {
    let volts = from;
    for (let step = 0; step < MOST_STEPS; step++) {
      this.x[0] = volts;
      this.part.evaluate(this.x, this.residual, this.magnitude, this.jacobian);
      let amps = this.residual[0] as number;
      let through = this.magnitude[0] as number;
      let siemens = this.jacobian[this.diagonal] as number;
      for (let k = 0; k < crowds.length; k++) {
        const { class: kind, state, count } = crowds[k] as Crowd;
        const rest = kind.at(state, volts);
        if (!rest) return undefined;
        amps += count * rest.amps;
        through += count * rest.magnitude;
        siemens += count * rest.siemens;
      }
      if (Math.abs(amps) <= RELATIVE_RESIDUAL * through + RESIDUAL_FLOOR) return volts;
      const next = volts - amps / siemens;
      if (next === volts) return volts;
      volts = next;
    }
    return undefined;
  }
}
