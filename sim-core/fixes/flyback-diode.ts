/** A coil without a path for its current: a diode beside it, made for that current. */
import { nearestPair } from '../board/tie-points.ts';
import { diode } from '../parts/diode.ts';
import { rectifierDiode } from '../parts/rectifier-diode.ts';
import { type Ref, say } from '../sentence/wording.ts';
import type { Fix, FixBench } from './fix.ts';
import { between, freeBeside, legOf } from './free-holes.ts';

/** out: the leg at which the current leaves the coil; amps: how much */
export function addFlybackDiode(bench: FixBench, coil: Ref, out: Ref, back: Ref, amps: number): readonly Fix[] {
  const [anode, cathode] = [legOf(bench, out), legOf(bench, back)];
  const pair = anode && cathode && nearestPair(freeBeside(bench, anode), freeBeside(bench, cathode));
  const kind = amps <= (diode.mostCurrent?.value ?? 0) ? diode : rectifierDiode;
  const change = pair && between(bench, kind.id, {}, pair);
  return change ? [{ says: say`Add a diode across ${coil}`, change }] : [];
}
