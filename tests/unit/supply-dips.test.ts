/** A supply that dips for too short a time to count, and for longer. */
import { describe, expect, test } from 'vitest';
import { MEMORY, start, writeNetwork } from '../support/bench.ts';

describe('a dip of the supply', () => {
  /** An empty capacitor that a button hangs on the rail takes it down to some 0.5 V, for about 0.2 Ω times its value; the chip stands on a rail with nothing else. */
  const dipping = (farads: string) => `${MEMORY.replace('C1 capacitor j12 -j9 farads=100n', '')}
    L18 wire a18 -a18
    L19 wire a19 -a19
    L16 wire i16 +j12
    ${writeNetwork()}
    S9 push-button e40
    L60 wire +j40 j40 red
    C9 capacitor j42 -j40 farads=${farads}
    R9 resistor i42 -j41 ohms=1M`;
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
