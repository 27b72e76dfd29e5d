/** Margins of what a chip's supply pins carry and how far its supply dips. */
import { describe, expect, test } from 'vitest';
import { addressSwitch, memoryBench } from '../../sim-core/findings/example-benches.ts';
import { packageOverCurrentExamples } from '../../sim-core/findings/rules/chip/package-over-current.ts';
import { type Margin, marginsOf, plain, readBenchText, type Simulation, sayMargin } from '../../sim-core/index.ts';
import type { ExperimentReading } from '../../sim-core/tolerance/experiment.ts';
import { dipQuestions } from '../../sim-core/tolerance/supply-droop-margins.ts';
import { planOf, start } from '../support/bench.ts';

function marginsAt(text: string): { margins: readonly Margin[]; sim: Simulation; say: (m: Margin) => string } {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  const found = marginsOf(plan.value, 'worst');
  if (!found.ok) throw new Error(found.failure.says);
  return { margins: found.value, sim: start(plan.value), say: (m) => plain(sayMargin(m, plan.value)) };
}

describe('the current of a package', () => {
  const { bad, good } = packageOverCurrentExamples();
  test('is that of all its outputs together, as drawn and at worst, against the limit of its supply pin', () => {
    if ('none' in bad) throw new Error('no bench');
    const { margins, sim, say } = marginsAt(bad.bench);
    const found = margins.filter((m) => m.what === 'package-current');
    expect(found).toHaveLength(1);
    const [margin] = found as [Margin];
    const leds = sim.readings().leds.reduce((sum, l) => sum + l.amps, 0);
    expect(Math.abs(margin.nominal / leds - 1)).toBeLessThan(1e-6);
    expect(margin.worst).toBeGreaterThan(margin.nominal);
    expect(margin.at.id).toBe('U1.24');
    expect(margin.holds).toBe(false);
    expect(say(margin)).toMatch(/current of all outputs together \d.* mA in the worst case \(limit: at most/);
  });
  test('holds with larger resistors, even at worst', () => {
    const [margin] = marginsAt(good.bench.replaceAll(' 330 ', ' 1k ')).margins.filter((m) => m.what === 'package-current');
    expect(margin?.holds).toBe(true);
  });
});

describe('the dip of a supply', () => {
  // S1 moves A0, which sends D0 to D7 from 00 to FF; 470 pF hang on D0, as a long cable would
  const bench = (...without: string[]) =>
    `wiring real\n${memoryBench(`${addressSwitch('0', '10k')}\nwire WOE from j16 to -j9\nwire WWE from j15 to +j9\ncapacitor CL 470p from a20 to -a40\nmemory U1 000 00FF`, 'WA0', ...without)}`;
  const dipOf = (text: string) => {
    const { margins, say } = marginsAt(text);
    const [margin] = margins.filter((m) => m.what === 'supply-dip');
    if (!margin) throw new Error('no dip');
    return { margin, says: say(margin) };
  };
  test('is judged against what is left down to the least that the sheet holds for, and is smaller with 100 nF at the chip', () => {
    const [bare, decoupled] = [dipOf(bench('C9', 'WC9')), dipOf(bench())];
    expect(bare.margin.limit).toBeGreaterThan(0.45);
    expect(bare.margin.limit).toBeLessThan(0.5);
    expect(decoupled.margin.nominal).toBeLessThan(0.7 * bare.margin.nominal);
    expect(bare.margin.worst).toBeGreaterThanOrEqual(bare.margin.nominal);
    expect(bare.says).toMatch(/supply dip \d.* V in the worst case \(limit: at most 49\d mV/);
  });
  test('is asked for at the same move, whether the plan says that a pole is open or says nothing of it', () => {
    const plan = planOf(bench());
    const { S1: open, ...others } = plan.switches;
    expect(open).toEqual([false]);
    const { circuit } = start(plan);
    const asked = (switches: typeof plan.switches) =>
      dipQuestions({ ...plan, switches }, circuit).map((q) => [q.at.id, q.limit, q.read(q.trial([], []) as ExperimentReading)]);
    const [first, ...more] = asked(others);
    expect([first?.[0], more]).toEqual(['U1', []]);
    expect(asked(plan.switches)).toEqual([first]);
  });
  test('is not asked for where wiring is ideal', () => {
    expect(marginsAt(bench().replace('wiring real', '')).margins.filter((m) => m.what === 'supply-dip')).toEqual([]);
  });
});
