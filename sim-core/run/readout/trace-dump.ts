/** A trace as a value change dump: each pin's level as a wire, its voltage as a real. */

import type { Outcome } from '../../../shared/outcome.ts';
import { type VcdReal, type VcdWire, writeVcd } from '../../formats/vcd.ts';
import type { Trace, TraceLevel } from './recorder.ts';

const STATE: Readonly<Record<TraceLevel, VcdWire['states'][number]['state']>> = { L: '0', H: '1', X: 'x', Z: 'z', '-': 'x' };

/** Text of a `.vcd` file, IEEE 1364 clause 18. Refused as `writeVcd` refuses. Fails with `trace/too-early`. */
export function dumpTrace({ part, times, pins }: Trace): Outcome<string> {
  const from = times[0] ?? 0;
  const read = pins.filter((p) => /[LHXZ]/.test(p.levels));
  return writeVcd(
    [
      {
        name: part,
        wires: read.map((p): VcdWire => {
          const all = [...p.levels].map((letter, i) => ({ time: times[i] ?? from, state: STATE[letter as TraceLevel] }));
          return { name: p.name, states: all.filter((s, i) => i === 0 || s.state !== all[i - 1]?.state) };
        }),
        reals: read.map((p): VcdReal => {
          const all = p.volts.map((value, i) => ({ time: times[i] ?? from, value }));
          return { name: p.name, values: all.filter((v, i) => i === 0 || v.value !== all[i - 1]?.value) };
        }),
      },
    ],
    from,
  );
}
