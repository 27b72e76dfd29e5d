/** Edits under a running bench: what the edit is not about goes on, to the byte and the microsecond. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { storing } from '../../sim-core/document/memory-writes.ts';
import { DATA_5A, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { type Change, findingsNow, rebase, type Simulation } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const edit = (sim: Simulation, change: Change) => {
  const made = rebase(sim.plan(), change);
  const begun = sim.begin({ do: 'edit', change: made });
  if (!begun.ok) throw new Error(begun.failure.says);
  return made;
};
const addWire = (id: string, from: string, to: string): Change => ({
  op: 'insert',
  list: 'wires',
  item: { id, from, to, colour: 'green' },
  index: 0,
});
const removePart = (sim: Simulation, id: string): Change => {
  const index = sim.plan().parts.findIndex((p) => p.id === id);
  return { op: 'remove', list: 'parts', item: sim.plan().parts[index]!, index };
};
const addPart = (sim: Simulation, id: string, kind: string, at: string, to?: string): Change => ({
  op: 'insert',
  list: 'parts',
  item: { id, kind, at, ...(to ? { to } : {}) },
  index: sim.plan().parts.length,
});
const doing = (sim: Simulation, part = 'U1') => sim.readings().chips.find((c) => c.part === part)?.state.doing;

const voltsOn = (sim: Simulation, strip: string) => {
  const net = [...sim.circuit.nets.all].find((n) => n.strips.includes(strip))!;
  return sim.readings().nets[net.index]!.volts;
};

describe('a write under way', () => {
  const writing = () => {
    const sim = start(memoryBench(DATA_5A + writeButton()), { bounce: false });
    sim.wait(0.01);
    sim.begin({ do: 'press', part: 'S9' });
    sim.wait(20e-6);
    expect(doing(sim)).toBe('storing');
    return sim;
  };
  test('goes on while a wire is put in elsewhere, and ends when it would have ended', () => {
    const [edited, left] = [writing(), writing()];
    edit(edited, addWire('X1', 'a1', 'a2'));
    expect(edited.now).toBe(left.now);
    expect(doing(edited)).toBe('storing');
    for (const sim of [edited, left]) sim.wait(1e-3);
    while (doing(left) === 'storing') for (const sim of [edited, left]) sim.wait(50e-6);
    expect(doing(edited)).not.toBe('storing');
    expect(edited.events).toEqual(left.events);
    expect(edited.plan().memories).toEqual(left.plan().memories);
    expect(edited.plan().memories.U1).toBeDefined();
  });
  test('is lost with the memory that is pulled out, and does not end in another one put there', () => {
    const sim = writing();
    const before = sim.plan().memories.U1;
    const out = edit(sim, removePart(sim, 'U1'));
    expect(sim.plan().memories.U1).toBeUndefined();
    sim.wait(100e-6);
    if (out.op !== 'all') throw new Error('a memory with bytes goes out with them');
    edit(sim, {
      op: 'insert',
      list: 'parts',
      item: before
        ? start(memoryBench(''))
            .plan()
            .parts.find((p) => p.id === 'U1')!
        : { id: 'U1', kind: '' },
      index: 0,
    });
    sim.wait(0.1);
    expect(sim.plan().memories.U1).toEqual({});
  });
});

describe('what goes on', () => {
  const CHARGING = `
    board-30 B1
    bench-supply PS1
    switch PS1 set 1
    wire W1 red from PS1.+ to a1
    wire W2 black from PS1.- to a9
    dip-switch S1 at e3 with poles 1
    wire L1 red from b1 to a3
    resistor R1 100k from j3 to j12
    capacitor C1 1u from i12 to i20
    resistor R2 1M from h12 to h20
    wire W3 black from j20 to b9`;
  test('a capacitor half charged is charged as far after the edit, and goes on as if nothing had been', () => {
    const [edited, left] = [0, 1].map(() => {
      const sim = start(CHARGING, { bounce: false });
      sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
      sim.wait(0.05);
      return sim;
    }) as [Simulation, Simulation];
    const strip = [...edited.circuit.nets.ofStrip.keys()].find((s) =>
      edited.circuit.nets.ofStrip.get(s)!.legs.some((l) => l.part.id === 'C1' && l.pin === '1'),
    )!;
    const half = voltsOn(edited, strip);
    expect(half).toBeGreaterThan(1.5);
    expect(half).toBeLessThan(2.5);
    edit(edited, addPart(edited, 'D1', 'led', 'a20', 'a25'));
    expect(voltsOn(edited, strip)).toBeCloseTo(half, 6);
    for (const sim of [edited, left]) sim.wait(0.1);
    expect(voltsOn(edited, strip)).toBeGreaterThan(half + 1);
    expect(voltsOn(edited, strip)).toBeCloseTo(voltsOn(left, strip), 4);
  });
  test('switches stay where hands have put them, and time goes on', () => {
    const sim = start(CHARGING, { bounce: false });
    sim.act({ do: 'set', part: 'S1', pole: 0, closed: true });
    sim.wait(3);
    const { now } = sim;
    edit(sim, addWire('X1', 'a29', 'b28'));
    expect(sim.now).toBe(now);
    expect(sim.plan().switches.S1).toEqual([true]);
  });
  test('an edit that cannot be is refused, and the bench stands as before', () => {
    const sim = start(CHARGING);
    const { plan, circuit } = { plan: sim.plan(), circuit: sim.circuit };
    const begun = sim.begin({ do: 'edit', change: addWire('X1', 'a1', 'a99') });
    expect(begun.ok).toBe(false);
    expect(sim.circuit).toBe(circuit);
    expect(sim.plan()).toEqual(plan);
  });
});

describe('a wire that ends in another hole', () => {
  /** L1 joins rows 1 and 3; P1 lies beside it. */
  const CHARGED = `
    board-30 B1
    bench-supply PS1
    switch PS1 set 1
    wire W1 red from PS1.+ to a1
    wire W2 black from PS1.- to a9
    wire L1 red from b1 to a3
    wire P1 red from c1 to c3
    resistor R1 100k from e3 to e12
    capacitor C1 1u from d12 to d9
    meter M1 volts at b12`;
  const moved = (sim: Simulation, id: string, to: string): Change => {
    const before = sim.plan().wires.find((w) => w.id === id)!;
    return { op: 'replace', list: 'wires', before, after: { ...before, to } };
  };
  const charging = (more = ''): Simulation => {
    const sim = start(more + CHARGED, { bounce: false });
    sim.wait(0.05);
    return sim;
  };

  test('of its own net moves no charge: what is under way goes on, to the bit', () => {
    const [edited, left] = [charging(), charging()];
    const { network } = edited.circuit;
    edit(edited, moved(edited, 'L1', 'b3'));
    expect(edited.circuit.network).toBe(network);
    expect(edited.circuit.layout.taken.get('b3')).toBe('wire L1');
    for (const sim of [edited, left]) sim.wait(0.1);
    expect(edited.readings()).toEqual(left.readings());
    expect(edited.readings().meters).toEqual(start(edited.plan(), { bounce: false }).readings().meters);
  });

  test('of a row with nothing else in it takes that row into its net', () => {
    const sim = charging();
    edit(sim, moved(sim, 'P1', 'a20'));
    const opened = start(sim.plan(), { bounce: false });
    expect(voltsOn(sim, 'B1/20a')).toBe(voltsOn(sim, 'B1/1a'));
    expect(sim.circuit.nets.all.map((n) => n.strips)).toEqual(opened.circuit.nets.all.map((n) => n.strips));
    expect(sim.circuit.nodeOfNet).toEqual(opened.circuit.nodeOfNet);
    expect(sim.circuit.netOfNode).toEqual(opened.circuit.netOfNode);
  });

  test('leaves nothing of the circuits before it in memory', async () => {
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    const sim = charging();
    const nets = ['b3', 'c20', 'b3', 'c20'].map((to) => {
      edit(sim, moved(sim, 'L1', to));
      findingsNow(sim);
      return new WeakRef(sim.circuit.nets);
    });
    // what a weak reference was made of in this turn is kept until its end
    await new Promise((next) => setTimeout(next));
    collect();
    expect(nets.map((ref) => ref.deref() === undefined)).toEqual([true, true, true, false]);
  });

  test('of another net, or with wires that have resistance, makes another circuit', () => {
    for (const [sim, to] of [
      [charging(), 'b9'],
      [charging('wiring real'), 'b3'],
    ] as const) {
      const { network } = sim.circuit;
      edit(sim, moved(sim, 'L1', to));
      expect(sim.circuit.network).not.toBe(network);
    }
  });
});

describe('chips that come and go', () => {
  const CLOCK = `
    board-63 B1
    bench-supply PS1
    switch PS1 set 1
    wire W1 red from PS1.+ to +j1
    wire W2 black from PS1.- to -j1
    crystal-oscillator X9 1k at e10
    wire W3 red from +j2 to j10
    wire W4 black from -j3 to a16`;
  test('a chip pushed into a powered socket begins with its supply coming up', () => {
    const sim = start(memoryBench(''));
    const u1 = sim.plan().parts.find((p) => p.id === 'U1')!;
    edit(sim, removePart(sim, 'U1'));
    expect(sim.readings().chips).toEqual([]);
    sim.wait(1);
    edit(sim, { op: 'insert', list: 'parts', item: u1, index: 0 });
    expect(sim.rest()).toBe(true);
    sim.wait(1);
    expect(doing(sim)).toBe(doing(start(memoryBench(''))));
    expect(doing(sim)).not.toBe('no supply');
  });
  test('a clock that is taken out and put back ticks once a period, not twice', () => {
    const sim = start(CLOCK);
    expect(doing(sim, 'X9')).toBe('working');
    for (let i = 0; i < 4; i++) {
      const clock = sim.plan().parts.find((p) => p.id === 'X9')!;
      edit(sim, removePart(sim, 'X9'));
      sim.wait(10e-6);
      edit(sim, { op: 'insert', list: 'parts', item: clock, index: 1 });
      sim.wait(10e-6);
    }
    sim.wait(5e-3);
    const out = sim.circuit.chips[0]!.outputs[0]!;
    let edges = 0;
    let before = sim.circuit.network.pullOf(out.device);
    for (let i = 0; i < 1000; i++) {
      sim.wait(10e-6);
      const pull = sim.circuit.network.pullOf(out.device);
      if (pull !== before) edges += 1;
      before = pull;
    }
    expect(edges).toBe(20);
  });
  test('bytes changed by an edit are what the memory shows', () => {
    const sim = start(memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9'));
    edit(sim, { op: 'set', field: 'memories', id: 'U1', before: sim.plan().memories.U1, after: { '000': '3C' } });
    sim.rest();
    expect(sim.readings().chips[0]!.state.data?.value).toBe(0x3c);
  });
});

test('a memory is written out once while no byte differs, and again when one does', () => {
  const sim = start(memoryBench(DATA_5A + writeButton()), { bounce: false });
  const before = sim.plan().memories.U1;
  expect(sim.plan().memories.U1).toBe(before);
  edit(sim, addWire('X1', 'a1', 'a2'));
  expect(sim.plan().memories.U1).toBe(before);
  sim.wait(0.01);
  sim.act({ do: 'press', part: 'S9' });
  sim.wait(0.1);
  const after = sim.plan().memories.U1;
  expect(after).not.toEqual(before);
  expect(sim.plan().memories.U1).toBe(after);
});

describe('what no current feels', () => {
  test('names, colours and the title change nothing but the plan, and words follow', () => {
    const sim = start(`${memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9')}`, { bounce: false });
    const { network } = sim.circuit;
    const before = sim.plan().parts.find((p) => p.id === 'U1')!;
    edit(sim, { op: 'replace', list: 'parts', before, after: { ...before, label: 'logic' } });
    const wire = sim.plan().wires[0]!;
    edit(sim, { op: 'replace', list: 'wires', before: wire, after: { ...wire, colour: 'violet' } });
    edit(sim, { op: 'set', field: 'title', before: sim.plan().title, after: 'Another' });
    expect(sim.circuit.network).toBe(network);
    expect(sim.plan().wires[0]?.colour).toBe('violet');
    expect(sim.plan().title).toBe('Another');
    expect(sim.circuit.plan.parts.find((p) => p.id === 'U1')?.label).toBe('logic');
  });
  test('a wire that leaves its net is felt, though its name stays', () => {
    const sim = start(`${memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9')}`, { bounce: false });
    const { network } = sim.circuit;
    const wire = sim.plan().wires.at(-1)!;
    edit(sim, { op: 'replace', list: 'wires', before: wire, after: { ...wire, to: '-j20' } });
    expect(sim.circuit.network).not.toBe(network);
  });
});

test('a switch that an edit sets while its contact still chatters stands where the edit has put it, whatever the seed', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const sim = start('board-63 B1\nbench-supply PS1\ndip-switch S1 at e10 with poles 1\nswitch S1 set 0', { seed });
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
    sim.wait(1e-6);
    sim.act({ do: 'edit', change: { op: 'set', field: 'switches', id: 'S1', before: [true], after: [false] } });
    sim.wait(1);
    const [site] = sim.circuit.contacts;
    expect(sim.plan().switches.S1, `seed ${seed}`).toEqual([false]);
    expect(sim.circuit.network.conductance(site!.device), `seed ${seed}`).toBeCloseTo(1 / site!.contact.off, 12);
  }
});

test('a static RAM that is given other bytes while it has its supply holds them, and reads them', () => {
  const greenhouse = demoPlan('greenhouse')!;
  const parts = greenhouse.parts.map((p) => (p.id === 'U1' ? { ...p, kind: 'static-ram-2kx8' } : p));
  const sim = start({ ...greenhouse, parts, switches: { ...greenhouse.switches, PS1: [true] } });
  const row = '5A'.repeat(16);
  edit(sim, storing(sim.plan(), 'U1', { ...sim.plan().memories.U1, '000': row }));
  sim.rest();
  sim.wait(1);
  expect(sim.plan().memories.U1?.['000']).toBe(row);
  expect(sim.plan().cells?.U1).toBeUndefined();
  expect(sim.readings().chips[0]!.state.data).toEqual({ value: 0x5a, unknown: 0 });
});
