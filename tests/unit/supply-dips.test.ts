/** A supply that dips for too short a time to count, and for longer. */
import { describe, expect, test } from 'vitest';
import { MEMORY, start, writeNetwork } from '../support/bench.ts';

describe('a dip of the supply', () => {
  /** An empty capacitor that a button hangs on the rail takes it down to some 0.5 V, for about 0.2 Ω times its value; the chip stands on a rail with nothing else. */
  const dipping = (farads: string) => `${MEMORY.replace('capacitor C1 100n from j12 to -j9', '')}
    wire L18 from a18 to -a18
    wire L19 from a19 to -a19
    wire L16 from i16 to +j12
    ${writeNetwork()}
    push-button S9 at e40
    wire L60 red from +j40 to j40
    capacitor C9 ${farads} from j42 to -j40
    resistor R9 1M from i42 to -j41`;
  const afterDip = (farads: string) => {
    const sim = start(dipping(farads), { bounce: false });
    sim.wait(0.02);
    sim.act({ do: 'press', part: 'S9' });
    sim.act({ do: 'press', part: 'SB1' });
    return sim.events.map((e) => e.faults.map((f) => f.fault).filter((f) => f === 'just-powered' || f === 'supply-low'));
  };

  test('of less than 50 ns locks nothing out: the next write is taken', () => {
    expect(afterDip('3n3')).toEqual([[]]);
  });

  test('of microseconds does: the next write finds the memory just powered', () => {
    expect(afterDip('10u')).toEqual([['just-powered']]);
  });
});
