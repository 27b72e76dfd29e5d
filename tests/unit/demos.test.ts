/** The demonstration plans: written as composed, buildable, right in all 32 settings, writable by hand; the broken ones broken, and whole again once mended. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { printPlan } from '../../shared/print-plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { composeAll } from '../../sim-core/demos/documents.ts';
import { GREENHOUSE_RULES, SENSORS, type Sensor, switchesFor, TABLE } from '../../sim-core/demos/greenhouse-rules.ts';
import { MISTAKES } from '../../sim-core/demos/mistakes.ts';
import { apply, buildCircuit, LED_STEPS, type Options, type Readings, type Simulation, simulate } from '../../sim-core/index.ts';
import { ROOT } from '../support/sources.ts';

const DIR = join(ROOT, 'shared/demos');
const plans = composeAll();
const whole = plans.greenhouse!;
const blank = plans['greenhouse-blank']!;
const EIGHT = GREENHOUSE_RULES.map((_, bit) => bit);

function running(plan: Plan, options: Partial<Options> = { still: true }): Simulation {
  const made = simulate(plan, options);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}

function set(bench: Simulation, part: string, pole: number, closed: boolean) {
  expect(bench.act({ do: 'set', part, pole, closed })).toEqual({ ok: true, value: undefined });
}
function setAll(bench: Simulation, part: string, poles: readonly boolean[]) {
  for (const [pole, closed] of poles.entries()) set(bench, part, pole, closed);
}
const bitsOf = (value: number, count: number) => Array.from({ length: count }, (_, i) => ((value >> i) & 1) === 1);

const brightness = (r: Readings, led: string) => r.leds.find((l) => l.led === led)?.brightness;
/** 'lit dark lit …', LED1 first; a byte as a row of eight such words. */
const shown = (bench: Simulation) => EIGHT.map((bit) => brightness(bench.readings(), `LED${bit + 1}`)).join(' ');
const ledsOf = (byte: number) =>
  bitsOf(byte, 8)
    .map((on) => (on ? 'lit' : 'dark'))
    .join(' ');

describe('the documents', () => {
  test('are exactly those that are composed', () => {
    const files = readdirSync(DIR).filter((f) => f.endsWith('.plan.json'));
    expect(files.sort()).toEqual(
      Object.keys(plans)
        .map((id) => `${id}.plan.json`)
        .sort(),
    );
    expect(files).toHaveLength(13);
  });

  test.each(Object.entries(plans))('%s is as composed, is read back as it is, and can be built', (id, plan) => {
    const text = readFileSync(join(DIR, `${id}.plan.json`), 'utf8');
    expect(text).toBe(printPlan(plan));
    expect(readPlan(text)).toEqual({ ok: true, value: plan });
    expect(buildCircuit(plan, 'guaranteed').ok).toBe(true);
  });

  test.each([whole, blank])('$title: red wires are plus, black ones minus, and no others are', (plan) => {
    const circuit = buildCircuit(plan, 'typical');
    if (!circuit.ok) throw new Error(circuit.failure.says);
    const { nets, layout } = circuit.value;
    const railOf = (strip: string) => ['PS1.+', 'PS1.-'].find((post) => nets.ofStrip.get(post) === nets.ofStrip.get(strip));
    for (const { wire, strip } of layout.ends) {
      if (wire.colour === 'red') expect(railOf(strip), wire.id).toBe('PS1.+');
      if (wire.colour === 'black') expect(railOf(strip), wire.id).toBe('PS1.-');
    }
    for (const post of ['PS1.+', 'PS1.-'] as const)
      for (const { wire } of layout.ends.filter((e) => e.strip === post)) expect(wire.colour).toBe(post === 'PS1.+' ? 'red' : 'black');
  });
});

describe('the table', () => {
  const row = (on: readonly Sensor[]) => switchesFor(...on).reduce((n, closed, i) => n | (Number(closed) << i), 0);
  const names = (byte: number | undefined) => GREENHOUSE_RULES.filter((_, bit) => ((byte ?? 0) >> bit) & 1).map((r) => r.led);

  // read off the sentences by hand, not by the rules' code
  test.each([
    { on: [], lit: ['all well'] },
    { on: ['hot'], lit: ['vent', 'mister', 'blind'] },
    { on: ['damp'], lit: ['vent'] },
    { on: ['dark'], lit: ['heater', 'grow light'] },
    { on: ['windy'], lit: ['all well'] },
    { on: ['raining'], lit: ['grow light'] },
    { on: ['hot', 'windy'], lit: ['fan', 'mister'] },
    { on: ['hot', 'dark'], lit: ['vent', 'alarm'] },
    { on: ['damp', 'dark', 'raining'], lit: ['fan', 'heater', 'grow light'] },
    { on: ['windy', 'raining'], lit: ['grow light', 'alarm'] },
    { on: ['hot', 'damp', 'dark', 'windy', 'raining'], lit: ['fan', 'alarm'] },
  ] as const)('$on lights $lit', ({ on, lit }) => {
    expect(names(TABLE[row(on)])).toEqual([...lit]);
  });

  test('has one sentence an LED, each naming its LED, and every LED depends on something', () => {
    expect(GREENHOUSE_RULES).toHaveLength(8);
    for (const [bit, rule] of GREENHOUSE_RULES.entries()) {
      expect(rule.says.toLowerCase()).toContain(rule.led);
      expect(new Set(TABLE.map((byte) => (byte >> bit) & 1)).size, rule.led).toBe(2);
    }
    for (const [i, sensor] of SENSORS.entries())
      expect(
        TABLE.some((byte, r) => byte !== TABLE[r ^ (1 << i)]),
        sensor,
      ).toBe(true);
    expect(TABLE.every((byte) => byte > 0)).toBe(true);
  });

  test('is what the document wants and what its memory holds', () => {
    expect(whole.wanted?.rows).toEqual(TABLE);
    expect(whole.wanted?.rules).toEqual(GREENHOUSE_RULES.map((r) => r.says));
    const image = whole.memories.U1!;
    const bytes = Object.entries(image).flatMap(([address, hex]) =>
      hex.match(/../g)!.map((pair, i) => [Number.parseInt(address, 16) + i, Number.parseInt(pair, 16)] as const),
    );
    expect(bytes).toEqual(TABLE.map((byte, r) => [r, byte]));
    expect(blank.wanted).toEqual(whole.wanted);
    expect(blank.memories).toEqual({});
  });
});

describe('the greenhouse watch', () => {
  test('is dark until its supply is on', () => {
    const bench = running(whole);
    expect(shown(bench)).toBe(ledsOf(0));
    set(bench, 'PS1', 0, true);
    expect(shown(bench)).toBe(ledsOf(TABLE[0]!));
  });

  test('shows the table in all 32 settings, each LED well lit, no pin and no package over its limit', () => {
    const bench = running(whole);
    set(bench, 'PS1', 0, true);
    const u1 = bench.circuit.chips[0]!.spec;
    for (const [r, byte] of TABLE.entries()) {
      setAll(bench, 'S1', bitsOf(r, 5));
      expect(shown(bench), `row ${r}`).toBe(ledsOf(byte));
      const readings = bench.readings();
      const amps = readings.leds.map((l) => Math.abs(l.amps));
      for (const a of amps.filter((x) => x > 1e-6)) expect(a).toBeGreaterThan(3 * LED_STEPS.lit);
      expect(Math.max(...amps)).toBeLessThan(u1.mostPinCurrent.value);
      expect(amps.reduce((sum, x) => sum + x, 0)).toBeLessThan(u1.mostPackageCurrent.value);
      expect(readings.nets.filter((n) => n.drive === 'floating' || n.drive === 'contention')).toEqual([]);
    }
  });
});

describe('the watch that is written by hand', () => {
  const [address, byte] = [0b01001, TABLE[0b01001]!];
  /** Supply on, /OE high, address and data set, pressed and let go, /OE low again with the data switches open. */
  function writtenByHand(seed: number) {
    const bench = running(blank, { still: false, seed });
    set(bench, 'PS1', 0, true);
    bench.wait(10e-3);
    const before = shown(bench);
    set(bench, 'S3', 0, true);
    setAll(bench, 'S1', bitsOf(address, 5));
    setAll(bench, 'S2', bitsOf(byte, 8));
    bench.act({ do: 'press', part: 'S4' });
    bench.act({ do: 'release', part: 'S4' });
    bench.wait(10e-3);
    set(bench, 'S3', 0, false);
    setAll(bench, 'S2', bitsOf(0, 8));
    return { bench, before };
  }

  test('a byte written by hand is read back, and the next address is still FF', () => {
    const { bench, before } = writtenByHand(1);
    expect(before).toBe(ledsOf(0xff));
    expect(shown(bench)).toBe(ledsOf(byte));
    set(bench, 'S1', 1, true);
    expect(shown(bench)).toBe(ledsOf(0xff));
    expect(bench.plan().memories).toEqual({ U1: { '000': `${'FF'.repeat(9)}06${'FF'.repeat(6)}` } });
  });

  // of 300 seeds, three have a first touch that lasts less than 100 ns, and its pulse is too short for any network
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('chatter %i makes one pulse, as long as RC says', (seed) => {
    const { bench } = writtenByHand(seed);
    expect(bench.events.map((e) => [e.what, e.outcome, e.faults])).toEqual([['write', 'stored', []]]);
    const [write] = bench.events;
    // from 0 V, the pin's and the outputs' few picofarads aside: RC ln(5/(5 − V))
    expect(write!.maximumLow).toBeGreaterThan(0.9 * 270 * 4.7e-9 * Math.log(5 / 3));
    expect(write!.maximumLow).toBeLessThan(1.1 * 270 * 4.7e-9 * Math.log(5 / 3));
  });

  test('data switches left closed do not spoil a reading', () => {
    const bench = running({ ...blank, memories: whole.memories });
    set(bench, 'PS1', 0, true);
    setAll(bench, 'S2', bitsOf(0xff, 8));
    for (const [r, byte] of TABLE.entries()) {
      setAll(bench, 'S1', bitsOf(r, 5));
      expect(shown(bench), `row ${r}`).toBe(ledsOf(byte));
    }
  });

  test('with /OE high the data rows follow the data switches, clearly high or low at the memory', () => {
    const bench = running(blank);
    set(bench, 'PS1', 0, true);
    set(bench, 'S3', 0, true);
    for (const byte of [0x00, 0x55, 0xaa, 0xff]) {
      setAll(bench, 'S2', bitsOf(byte, 8));
      const pins = bench.circuit.chips[0]!.outputs.map((o) => bench.readings().nets[bench.circuit.netOf(o.leg).index]!.volts);
      const { vil, vih } = bench.circuit.chips[0]!.spec.input;
      expect(pins.map((v) => (v < vil ? 0 : v > vih ? 1 : undefined))).toEqual(bitsOf(byte, 8).map(Number));
    }
  });
});

describe('the broken ones', () => {
  test('are six, with six causes', () => {
    expect(MISTAKES).toHaveLength(6);
    expect(new Set(MISTAKES.map((m) => m.cause)).size).toBe(6);
    expect(new Set(MISTAKES.map((m) => m.fix.op + JSON.stringify(m.fix))).size).toBe(6);
  });

  test.each(MISTAKES)('$plan: $cause', ({ plan: id, led, fix, cause }) => {
    const plan = plans[id]!;
    const bit = EIGHT.find((i) => `LED${i + 1}` === led)!;
    const setting = plan.switches.S1!.reduce((n, closed, i) => n | (Number(closed) << i), 0);
    expect((TABLE[setting]! >> bit) & 1).toBe(1);
    expect(plan.notes.join(' ')).toContain(led);
    expect(JSON.stringify(plan)).not.toContain(cause);

    expect(brightness(running(plan).readings(), led)).toBe(id.includes('dim') ? 'dim' : 'dark');
    const mended = running(apply(plan, fix));
    expect(shown(mended)).toBe(ledsOf(TABLE[setting]!));
  });
});
