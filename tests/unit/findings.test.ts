/** Every rule on its own benches, its words, the order of findings, and the rehearsal of a plan. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { findingsOf } from '../../sim-core/findings/ask-rule.ts';
import { RULES } from '../../sim-core/findings/catalogue.ts';
import {
  addressSwitch,
  DATA_5A,
  dataSwitch,
  type Example,
  FED,
  memoryBench,
  writeButton,
} from '../../sim-core/findings/example-benches.ts';
import type { Finding } from '../../sim-core/findings/finding.ts';
import type { Rule } from '../../sim-core/findings/rule.ts';
import { makeScene } from '../../sim-core/findings/rule-context.ts';
import { noOperatingPoint } from '../../sim-core/findings/rules/bench/no-operating-point.ts';
import { ledNoSeriesResistor } from '../../sim-core/findings/rules/led/no-series-resistor.ts';
import { ledOverCurrent } from '../../sim-core/findings/rules/led/over-current.ts';
import { setupOrHold } from '../../sim-core/findings/rules/memory/setup-or-hold.ts';
import { writeIgnored } from '../../sim-core/findings/rules/memory/write-ignored.ts';
import { writePulseShort } from '../../sim-core/findings/rules/memory/write-pulse-short.ts';
import { writeUndefined } from '../../sim-core/findings/rules/memory/write-undefined.ts';
import { pinOverCurrent } from '../../sim-core/findings/rules/pin/over-current.ts';
import {
  type Action,
  dryRun,
  findingsNow,
  partKind,
  plain,
  readBenchText,
  SEVERITIES,
  type Simulation,
  sayFinding,
  simulate,
} from '../../sim-core/index.ts';
import { runVector } from '../support/part-bench.ts';
import { examplesOf, ofRule, RULE_EXAMPLES } from '../support/rule-examples.ts';
import { readSources } from '../support/sources.ts';
import type { VectorStep } from '../vectors/vector.ts';

const codes = new Set(RULES.map((r) => r.code));

function read(text: string): Plan {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  return plan.value;
}

function play({ bench, script = [], holds = 0, waits = 0 }: Example): { sim: Simulation; plan: Plan } {
  const plan = read(bench);
  const made = simulate(plan, { bounce: false });
  if (!made.ok) throw new Error(made.failure.says);
  for (const acts of script) {
    for (const act of acts) {
      const begun = made.value.begin(act);
      if (!begun.ok) throw new Error(begun.failure.says);
    }
    made.value.rest();
    if (holds > 0) made.value.wait(holds);
  }
  if (waits > 0) made.value.wait(waits);
  return { sim: made.value, plan };
}

const wellSaid = (f: Finding, plan: Plan): string => {
  const text = plain(sayFinding(f, plan));
  expect(text).not.toMatch(/undefined(?! \(X\))|NaN|∞|\[object|null|--|\s\s|\s[.,)]/);
  for (const code of codes) expect(text).not.toContain(code);
  expect(text).toMatch(/^[A-Z0-9+−/].*\.$/);
  return text;
};

test('the code of every rule is the path of its file', () => {
  const files = readSources('sim-core').filter((s) => /^sim-core\/findings\/rules\/[^/]+\/[^/]+\.ts$/.test(s.path));
  const declared = files.map((s) => [s.path.replace(/^sim-core\/findings\/rules\/|\.ts$/g, ''), /code: '([^']+)'/.exec(s.text)?.[1]]);
  expect(declared.filter(([path, code]) => path !== code)).toEqual([]);
  expect(codes.size).toBe(files.length);
  expect([...RULE_EXAMPLES.keys()].sort()).toEqual([...codes].sort());
});

const shown = RULES.flatMap((rule) => {
  const { bad } = examplesOf(rule.code);
  return 'none' in bad ? [] : [[rule.code, rule, bad] as const];
});

/** What is marginal, and what a press does, needs a dry run. */
function findingsOn(rule: Rule, sim: Simulation, plan: Plan): readonly Finding[] {
  if (rule.reads !== 'marginal' && rule.reads !== 'press') return findingsNow(sim);
  const answer = dryRun(plan);
  if (!answer.ok) throw new Error(answer.failure.says);
  return answer.value;
}

describe.each(shown)('%s', (code, rule, bad) => {
  test('is found on its bad bench, first of all at the thing it names', () => {
    const { sim, plan } = play(bad);
    const found = findingsOn(rule, sim, plan).filter((f) => f.code === code);
    expect(found.map((f) => f.at[0]?.id)).toContain(bad.points);
    for (const f of found) wellSaid(f, plan);
  });

  test('is not found on its good bench', () => {
    const { sim, plan } = play(examplesOf(code).good);
    expect(findingsOn(rule, sim, plan).filter((f) => f.code === code)).toEqual([]);
  });
});

test('a bench without an operating point says so, and where', () => {
  const { sim, plan } = play({
    bench: 'board-63 B1\nbench-supply PS1\nresistor R1 from a1 to a5\nwire W1 from PS1.+ to b1\nswitch PS1 set 1',
  });
  if (noOperatingPoint.reads !== 'moment') throw new Error('this rule reads the moment');
  expect(noOperatingPoint.look(makeScene(sim.circuit, sim.readings()))).toEqual([]);
  const unsolved = { net: sim.circuit.nets.ofStrip.get('B1/1a')?.index ?? -1 };
  const [lost] = findingsOf(noOperatingPoint, noOperatingPoint.look(makeScene(sim.circuit, { ...sim.readings(), unsolved })));
  expect(lost?.at[0]).toEqual({ kind: 'pin', id: 'PS1.+' });
  expect(lost && wellSaid(lost, plan)).toContain('the + terminal of PS1');
});

describe('a write that came to nothing', () => {
  const press: Action = { do: 'press', part: 'S9' };
  const open: Action = { do: 'set', part: 'S1', pole: 0, closed: false };
  const withoutD0 = DATA_5A.replace(/wire WD0.*\n/, '');
  /** acts, and the time that passes after each */
  const cases: readonly (readonly [why: string, bench: string, acts: readonly (readonly [Action, number])[], says: string])[] = [
    ['output-enable-low', memoryBench(writeButton().replace('+j11', '-j11')), [[press, 0.01]], 'Set /OE high'],
    [
      'busy',
      memoryBench(withoutD0 + writeButton() + dataSwitch('1k')),
      [
        [press, 10e-6],
        [{ do: 'release', part: 'S9' }, 400e-6],
        [open, 10e-6],
        [press, 0.01],
      ],
      'busy storing the byte before',
    ],
    [
      'supply-low',
      memoryBench(DATA_5A + writeButton()).replace('PS1 5', 'PS1 3.5'),
      [[press, 0.01]],
      'its supply was 3.5 V (at least 3.8 V)',
    ],
    [
      'just-powered',
      memoryBench(DATA_5A + writeButton()).replace('switch PS1 set 1', 'switch PS1 set 0'),
      [
        [{ do: 'set', part: 'PS1', pole: 0, closed: true }, 0.001],
        [press, 0.01],
      ],
      'writes are locked out for 5 ms',
    ],
    ['glitch', memoryBench(DATA_5A + writeButton('30p')), [[press, 0.01]], 'too short to be seen'],
    ['address-unknown', memoryBench(DATA_5A + writeButton(), 'WA0'), [[press, 0.01]], 'written while its address was undefined (X)'],
    ['data-unknown', memoryBench(withoutD0 + writeButton()), [[press, 0.01]], 'the data at address 0x000 was undefined (X), 5?'],
    [
      'output-enable-unknown',
      memoryBench(DATA_5A + writeButton().replace(/wire WOE.*/, '')),
      [[press, 0.01]],
      '/OE was undefined (X) during the write',
    ],
  ];

  test.each(cases)('says why: %s', (why, bench, acts, says) => {
    const { sim, plan } = play({ bench });
    for (const [act, after] of acts) {
      sim.begin(act);
      sim.wait(after);
    }
    const all = findingsNow(sim);
    const found = [...ofRule(writeIgnored, all), ...ofRule(writeUndefined, all)].find((f) => f.data.why === why);
    expect(found?.at[0]).toEqual({ kind: 'part', id: 'U1' });
    if (found) expect(wellSaid(found, plan)).toContain(says);
  });

  const setAndPress = (closed: boolean): readonly (readonly [Action, number])[] => [
    [{ do: 'set', part: 'S1', pole: 0, closed }, 0],
    [press, 0.01],
  ];
  const pressAndOpen: readonly (readonly [Action, number])[] = [
    [press, 0],
    [open, 0.01],
  ];
  /** what moves beside the pulse: through 1 kΩ in 5 to 6 ns into 6 pF; 22 kΩ · 12 pF · ln 2.5 = 242 ns, 8.2 kΩ: 90 ns, and the pulse is surely low for 119 ns */
  const late: readonly (readonly [why: string, bench: string, acts: readonly (readonly [Action, number])[], says: string])[] = [
    [
      'address-setup',
      memoryBench(DATA_5A + writeButton('1n', '1k') + addressSwitch('0', '10k'), 'WA0'),
      setAndPress(true),
      'Set the address first',
    ],
    [
      'address-hold',
      memoryBench(DATA_5A + writeButton() + addressSwitch('1', '4k7'), 'WA0'),
      pressAndOpen,
      'Keep the address until the button is released',
    ],
    ['data-setup', memoryBench(withoutD0 + writeButton() + dataSwitch('8k2')), pressAndOpen, 'Set the data first'],
    ['data-hold', memoryBench(withoutD0 + writeButton() + dataSwitch('22k')), pressAndOpen, 'Keep the data until the button is released'],
    [
      'output-enable-setup',
      memoryBench(DATA_5A + writeButton('1n', '1k').replace(/wire WOE.*/, '') + addressSwitch('0', '10k').replace('a19', 'i16')),
      setAndPress(true),
      'Set /OE high first',
    ],
  ];
  test.each(late)('says which time was not kept: %s', (why, bench, acts, says) => {
    const { sim, plan } = play({ bench });
    for (const [act, after] of acts) {
      sim.begin(act);
      sim.wait(after);
    }
    const found = ofRule(setupOrHold, findingsNow(sim)).find((f) => f.data.why === why);
    expect(found?.at).toEqual([{ kind: 'part', id: 'U1' }]);
    if (found) expect(wellSaid(found, plan)).toContain(says);
  });

  test('is forgotten once the same address is written well', () => {
    const { sim } = play({ bench: memoryBench(DATA_5A + writeButton('1n', '1k') + addressSwitch('0', '10k'), 'WA0') });
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
    sim.act(press);
    expect(findingsNow(sim).map((f) => f.code)).toContain('memory/setup-or-hold');
    sim.act({ do: 'release', part: 'S9' });
    sim.wait(0.01);
    sim.act(press);
    expect(findingsNow(sim).map((f) => f.code)).not.toContain('memory/setup-or-hold');
  });
});

describe('the cure that a sentence names', () => {
  const only = <Data extends object>(bench: string, rule: Rule<Data>, script?: Example['script']): Finding<Data> | undefined =>
    ofRule(rule, findingsNow(play(script ? { bench, script } : { bench }).sim))[0];

  test('keeps an LED within its limit, and the next smaller value of the series does not', () => {
    const bench = (ohms: number) =>
      `${FED}\nled LED1 from a10 to a14\nresistor R1 ${ohms} from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`;
    const cure = Number(only(bench(68), ledOverCurrent)?.data.cure);
    expect(cure).toBe(100);
    expect(only(bench(cure), ledOverCurrent)).toBeUndefined();
    expect(only(bench(82), ledOverCurrent)?.data.measured).toBeGreaterThan(0.03);
  });

  test('keeps a pin within its limit', () => {
    const bench = (end: string) =>
      memoryBench(`wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nled LED1 from g23 to g30 called "vent"\n${end}`);
    const found = only(bench('wire WD from f30 to -j20'), pinOverCurrent);
    expect(found && wellSaid(found, play({ bench: bench('') }).plan)).toBe(
      'LED1 (vent) draws 16.1 mA from U1 pin 13 (D3) (limit 10 mA). Use at least 330 Ω in series.',
    );
    const cured = bench(`resistor R1 ${found?.data.cure} from f30 to -j20`);
    expect(only(cured, pinOverCurrent)).toBeUndefined();
    expect(only(cured, ledNoSeriesResistor)).toBeUndefined();
  });

  test('makes a short write pulse long enough', () => {
    const press = [[{ do: 'press', part: 'S9' } as const]];
    const found = only(memoryBench(DATA_5A + writeButton('330p')), writePulseShort, press);
    const { measured, limit } = found?.data ?? {};
    expect(measured).toBeLessThan(40e-9);
    expect(limit).toBe(100e-9);
    const farads = (330e-12 * Number(limit)) / Number(measured);
    expect(only(memoryBench(DATA_5A + writeButton(String(farads * 1.02))), writePulseShort, press)).toBeUndefined();
  });
});

describe('all findings together', () => {
  const messy = memoryBench(
    'wire WOE from j16 to -j9\nled LED1 from g23 to g30\nwire WD from f30 to -j20\nresistor R12 1k from a40 to e40\nresistor R2 1k from a41 to e41',
    'C9',
    'WA3',
  );

  test('stand in order of severity, then code, then place as a person counts, each once', () => {
    const found = findingsNow(play({ bench: messy }).sim);
    const ranks = found.map((f) => SEVERITIES.indexOf(f.severity));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(new Set(ranks).size).toBe(3);
    expect(found.filter((f) => f.code === 'part/both-legs-in-one-row').map((f) => f.at[0]?.id)).toEqual(['R2', 'R12']);
    expect(new Set(found.map((f) => `${f.code} ${f.at[0]?.id}`)).size).toBe(found.length);
  });

  test('say nothing of voltages while the supply is off, and all that the wiring shows', () => {
    const found = findingsNow(play({ bench: messy.replace('switch PS1 set 1', 'switch PS1 set 0') }).sim);
    expect(new Set(found.map((f) => f.code))).toEqual(
      new Set(['led/no-series-resistor', 'part/both-legs-in-one-row', 'chip/no-decoupling']),
    );
  });

  test('are the same again for a second run, to the bit', () => {
    const once = () => JSON.stringify(findingsNow(play({ bench: messy }).sim));
    expect(once()).toBe(once());
  });
});

describe('the rehearsal of a plan', () => {
  const codesOf = (plan: Plan) => {
    const answer = dryRun(plan);
    if (!answer.ok) throw new Error(answer.failure.says);
    return answer.value;
  };

  test('switches the supply on, and finds nothing wrong with a bench that is right', () => {
    const plan = read(
      memoryBench(
        'memory U1 000 00\nwire WOE from j16 to -j9\nwire WWE from j15 to +j9\nled LED1 from g30 to g23\nresistor R1 1k from f30 to +j20',
      ).replace('switch PS1 set 1', ''),
    );
    expect(codesOf(plan)).toEqual([]);
  });

  test('tries every setting of the address switches, and names the one that shows a fault worst', () => {
    const plan = read(
      memoryBench(
        `wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nled LED1 from g23 to g30\nwire WD from f30 to -j20${addressSwitch('0', '10k')}\nmemory U1 000 0008`,
        'WA0',
      ),
    );
    const over = codesOf(plan).find((f) => f.code === 'pin/over-current');
    expect(over?.at[0]?.id).toBe('U1.13');
    expect(over?.when).toBe('S1 at 1');
    expect(over && wellSaid(over, plan)).toMatch(/Seen with S1 at 1\.$/);
  });

  test('sets a switch that makes the memory ready, presses the button, and says how short the pulse is', () => {
    const ready = `dip-switch S3 at e50 with poles 1\nwire WO1 from a50 to +j30\nwire WO2 from j50 to i16\nresistor RO 10k from j16 to -j31`;
    const bench = (farads: string) => memoryBench(`${DATA_5A}${writeButton(farads).replace(/wire WOE.*/, '')}\n${ready}`);
    // the data wires go straight to the rails, so reading is a fight: only the log of writes is looked at here, and not what bounce does with 100 kΩ
    const ofWrites = ({ code }: Finding) => code.startsWith('memory/') && code !== 'memory/bounce-writes-again';
    const writes = (farads: string) => codesOf(read(bench(farads))).filter(ofWrites);
    expect(writes('1.5n')).toEqual([]);
    expect(writes('1n').map((f) => [f.code, f.severity, f.at.map((r) => r.id)])).toEqual([
      ['memory/pulse-not-guaranteed', 'marginal', ['U1', 'S9', 'CW']],
    ]);
    expect(writes('330p').map((f) => [f.code, f.when])).toEqual([['memory/write-pulse-short', 'S9 pressed']]);
  });

  test('says of what a press has begun and letting go does not end that it is seen with the button pressed', () => {
    const register = `octal-register-clear U1 at e20\nwire WV from j20 to +j3\nwire WG from a29 to -j4\nwire WC from a20 to +j5\nwire WD from a22 to +j6
      push-button S9 at e50\nwire WS from a50 to +j7\nwire WT from j52 to j29\nresistor RT 10k from i29 to -j29\nled LED1 from a21 to a40\nwire WL from b40 to -j8`;
    const over = codesOf(read(`${FED}\n${register}`)).filter((f) => f.code.endsWith('/over-current'));
    expect(over.map((f) => [f.code, f.when])).toEqual([
      ['led/over-current', 'S9 pressed'],
      ['pin/over-current', 'S9 pressed'],
    ]);
  });

  test('refuses a plan that cannot be built, with the sentence that says why', () => {
    const answer = dryRun(read(`${FED}\nresistor R1 from a1 to a1`));
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.failure.says).toContain('a1');
  });
});

test('an LED of a bar is called an LED, one of a digit a segment', () => {
  const said = (kind: string, ends: string) => {
    const { sim, plan } = play({ bench: `${FED}\n${kind} DS1 at e40\n${ends}` });
    return findingsNow(sim)
      .filter((f) => f.code === 'led/over-current')
      .map((f) => wellSaid(f, plan))
      .join(' ');
  };
  expect(said('led-bar-graph', 'wire WA from a42 to +j5\nwire WK from j42 to -j5')).toMatch(/^LED 3 of DS1 draws/);
  expect(said('seven-segment-common-cathode', 'wire WA from a40 to +j5\nwire WK from a42 to -j5')).toMatch(/^Segment e of DS1 draws/);
});

test('a byte of another page, written by something quicker than hands, is spoken of', () => {
  const kind = partKind('eeprom-8kx8');
  if (!kind) throw new Error('no such part');
  const write = (address: number): VectorStep[] => [
    { set: { A: address, D: 0x55 } },
    { wait: 1e-6 },
    { set: { '/WE': 0 } },
    { wait: 300e-9 },
    { set: { '/WE': 1 } },
    { wait: 1e-6 },
  ];
  const rest: VectorStep = { set: { '/CE': 0, '/OE': 1, '/WE': 1 } };
  const { sim } = runVector(kind, { says: 'two pages', steps: [rest, ...write(0), ...write(0x40), { wait: 0.02 }] });
  const [found, ...more] = findingsNow(sim).filter((f) => f.code === 'memory/other-page');
  expect(more).toEqual([]);
  expect(found && wellSaid(found, sim.circuit.plan)).toMatch(/byte 55 for address 0x0040 came while another page was being loaded/);
});
