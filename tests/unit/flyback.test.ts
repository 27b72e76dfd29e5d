/** Coils that are switched: what is said of a missing or reversed diode, for every kind of switch, and that the voltage that is said is what the bench computes. */
import { describe, expect, test } from 'vitest';
import { findingsNow } from '../../sim-core/findings/run-rules.ts';
import { sayFinding } from '../../sim-core/findings/say-finding.ts';
import { fixesFor, plain, type Simulation } from '../../sim-core/index.ts';
import { openVolts } from '../../sim-core/parts/figures/windings.ts';
import { MEMORY, READ_BY_S3, start } from '../support/bench.ts';

/** A board with its rails fed by a supply of 5 V and 2 A. */
const FED = `board-63 B1
  bench-supply PS1 5 with amps 2
  wire WP from PS1.+ to +a1
  wire WN from PS1.- to -a1
  switch PS1 set 1`;
/** Its winding between a20 (A1) and j20 (A2). */
const RELAY = 'relay K1 at e20';
const bench = (...lines: string[]) => start([FED, ...lines].join('\n'), { bounce: false });

const ofCoils = (sim: Simulation) => findingsNow(sim).filter((f) => f.code.startsWith('coil/'));
const said = (sim: Simulation) => ofCoils(sim).map((f) => [f.severity, plain(sayFinding(f, sim.circuit.plan))]);

const CONTACT = [
  RELAY,
  'dip-switch S1 at e40 with poles 1',
  'wire W1 from a20 to +a5',
  'wire W2 from j20 to a40',
  'wire W3 from j40 to -a35',
  'switch S1 set 1',
];
const DARLINGTON = (com: string) => [
  RELAY,
  'darlington-array-7 U1 at e30',
  'wire W1 from a20 to +a5',
  'wire W2 from j20 to j30',
  'wire W3 from a37 to -a30',
  'wire W4 from a30 to +a25',
  com,
];
const MOTOR = (more = '') => [
  'dc-motor M1',
  'wire W1 from M1.+ to +a5',
  'wire W2 from M1.- to a32',
  'npn-transistor Q1 at c30',
  'wire W3 from a30 to -a25',
  'resistor R1 1k from a31 to +a26',
  more,
];

describe('what has no path', () => {
  test('is said of a contact as marginal: nothing but the winding’s own capacitance bounds its voltage', () => {
    expect(said(bench(...CONTACT))).toEqual([
      [
        'marginal',
        'Relay K1 has no flyback diode: when the contact at S1 leg 1 opens, 40 mA have no path and drive 1.43 kV across it, and it arcs. Add a diode across relay K1, cathode at plus.',
      ],
    ]);
  });

  test('drives what opens to that voltage: the bench computes the closed form within 2 %', () => {
    const sim = bench(...CONTACT);
    sim.rest();
    const amps = sim.readings().coils[0]!.amps;
    const net = sim.circuit.nets.ofStrip.get('B1/20f')!.index;
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: false });
    let most = 0;
    for (let t = 0; t < 40e-6; t += 0.1e-6) {
      sim.wait(0.1e-6);
      most = Math.max(most, sim.readings().nets[net]!.volts);
    }
    expect(Math.abs(most / (5 + openVolts(amps, 0.125)) - 1)).toBeLessThan(0.02);
    expect(most).toBeGreaterThan(1000);
  });

  test('is said of an output that only pulls down, unless the diodes inside it lead to plus', () => {
    expect(said(bench(...DARLINGTON(''))).map(([, s]) => s)).toEqual([
      'Relay K1 has no flyback diode: when U1 pin 16 (OUT1) switches off, 40 mA have no path and drive it beyond its limit of 50 V, until it breaks down. Add a diode across relay K1, cathode at plus.',
    ]);
    expect(said(bench(...DARLINGTON('wire W5 from j37 to +a30')))).toEqual([]);
  });

  test('is said through a resistor in series with the coil, with the current that this leaves it', () => {
    const driven = (...more: string[]) =>
      bench(
        RELAY,
        'wire W1 from a20 to +a5',
        'resistor R2 125 from j20 to j28',
        'wire W2 from h28 to a32',
        'npn-transistor Q1 at c30',
        'wire W3 from a30 to -a25',
        'resistor R1 1k from a31 to +a26',
        ...more,
      );
    expect(said(driven()).filter(([severity]) => severity !== 'marginal')).toEqual([
      [
        'damage-risk',
        'Relay K1 has no flyback diode: when Q1 pin 3 (collector) switches off, 20 mA have no path and drive it to 60 V (limit 40 V). Add a diode across relay K1, cathode at plus.',
      ],
    ]);
    const sure = (...more: string[]) => said(driven(...more)).filter(([severity]) => severity !== 'marginal');
    expect(sure('diode D1 from i20 to b20')).toEqual([]);
    expect(sure('diode D1 from b32 to c20')).toEqual([]);
    // where something else leads past the resistor the current is not the switch's
    expect(sure('wire W9 from i20 to -a40')).toEqual([]);
  });

  test('is said of a motor at a standstill; the fix is a diode that bears its current, and it is one', () => {
    const sim = bench(...MOTOR());
    const [found] = ofCoils(sim);
    expect(plain(sayFinding(found!, sim.circuit.plan))).toContain(
      'DC motor M1 has no flyback diode: when Q1 pin 3 (collector) switches off, 1.33 A',
    );
    const [fix] = fixesFor(found!, sim.circuit);
    expect(fix!.change).toMatchObject({ item: { kind: 'rectifier-diode' } });
    sim.act({ do: 'edit', change: fix!.change });
    expect(said(sim)).toEqual([]);
  });

  test('is nothing where a resistor beside the coil keeps the voltage low, or where no switch is', () => {
    expect(said(bench(...MOTOR('resistor R2 22 from b32 to +a20')))).toEqual([]);
    expect(said(bench(RELAY, 'wire W1 from a20 to +a5', 'wire W2 from j20 to -a20'))).toEqual([]);
  });
});

describe('a contact on the plus side', () => {
  const high = (diode: string) =>
    bench(
      RELAY,
      'dip-switch S1 at e40 with poles 1',
      'wire W1 from a20 to a40',
      'wire W2 from j40 to +a35',
      'wire W3 from j20 to -a20',
      diode,
    );
  test('needs the cathode at itself', () => {
    expect(said(high('diode D1 from i20 to b20'))).toEqual([]);
    expect(said(high('diode D1 from b20 to i20')).map(([severity]) => severity)).toEqual(['damage-risk']);
  });
  test('of another relay counts as any other', () => {
    const sim = bench(
      RELAY,
      'wire W1 from a20 to +a5',
      'wire W2 from j20 to -a20',
      'dc-motor M1',
      'wire W3 from M1.+ to a27',
      'wire W4 from a23 to +a22',
      'wire W5 from M1.- to -a30',
    );
    expect(said(sim).map(([severity, says]) => [severity, says!.slice(0, 72)])).toEqual([
      ['marginal', 'DC motor M1 has no flyback diode: when the contact at K1 pin 8 (NO1) ope'],
    ]);
  });
});

describe('a relay', () => {
  const relay = (volts: number, more: string) =>
    start(`${FED.replace('PS1 5', `PS1 ${volts}`)}\n${RELAY}\nwire W2 from j20 to -a20\ndiode D1 from i20 to b20\n${more}`, {
      bounce: false,
    });
  // operates from 75 % of its rating, releases below 10 %: the part's figures, from memory
  test.each([
    [5, undefined],
    [3.9, undefined],
    [3.5, /carries 28 mA, and it operates for certain from 30 mA and releases for certain below 4 mA/],
    [0.6, /carries 4.8 mA/],
    [0.4, undefined],
  ] as const)('at %s V is said to be certain, or not', (volts, says) => {
    const found = said(relay(volts, 'wire W1 from a20 to +a5'));
    expect(found.map(([severity]) => severity)).toEqual(says ? ['marginal'] : []);
    if (says) expect(found[0]?.[1]).toMatch(says);
  });
  // COM1 row 23, NC1 row 25, NO1 row 27
  test('that its own closed contact feeds breaks its own current; one that holds itself by its open one does not', () => {
    const own = relay(5, 'wire W1 from a23 to +a5\nwire W3 from a25 to a20');
    expect(said(own).filter(([, s]) => /breaks its own current: .* at K1 pin 6 \(NC1\)/.test(s ?? ''))).toHaveLength(1);
    const holds = relay(
      5,
      'wire W1 from a23 to +a5\nwire W3 from a27 to a20\npush-button S9 at e40\nwire W4 from c20 to a40\nwire W5 from a42 to +a40',
    );
    expect(said(holds)).toEqual([]);
  });
});

test('an output that drives a coil straight is judged by its own limit, as any load is', () => {
  const sim = start(`${MEMORY}${READ_BY_S3}
    wire MP from +a2 to +j3
    relay K1 at e45
    wire W1 from a20 to a45
    wire W2 from j45 to +a40`);
  const codes = findingsNow(sim).map((f) => f.code);
  expect(codes).toContain('pin/over-current');
  // 20 mA are too few to operate it for certain
  expect(codes.filter((code) => code.startsWith('coil/'))).toEqual(['coil/between-currents']);
});
