/** What is said of a memory whose bytes are not what the plan's table wants: which rows, at which pins, and how bad that is. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { buildPlan, dryRun, findingsNow, plain, readBenchText, sayFinding, simulate } from '../../sim-core/index.ts';

function read(text: string): Plan {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  return plan.value;
}

describe('a memory against the table that is wanted of it', () => {
  const wanted = (rows: number[], more = {}): NonNullable<Plan['wanted']> => ({
    inputs: [
      { name: 'a', pin: 'U1.A0' },
      { name: 'b', pin: 'U1.A1' },
    ],
    outputs: [
      { name: 'or', pin: 'U1.D0' },
      { name: 'and', pin: 'U1.D5' },
    ],
    rules: [],
    rows,
    ...more,
  });
  const heard = (memory: string, table: Plan['wanted']) => {
    const plan = { ...read(memoryBench(memory)), wanted: table };
    const made = simulate(plan);
    if (!made.ok) throw new Error(made.failure.says);
    const found = findingsNow(made.value).filter((f) => f.code === 'memory/not-as-wanted');
    const rehearsed = dryRun(plan);
    expect(rehearsed.ok && rehearsed.value.filter((f) => f.code === 'memory/not-as-wanted')).toEqual(found);
    return found.map((f) => [f.severity, f.at.map((r) => r.id), plain(sayFinding(f, plan))]);
  };
  const OR_AND = [0, 1, 1, 3];
  test('says nothing where every row is as wanted, whatever the bits that no output uses', () => {
    expect(heard('memory U1 000 1E011F61', wanted(OR_AND))).toEqual([]);
  });
  test('names the first wrong row, how many there are, and the pins concerned', () => {
    expect(heard('memory U1 000 00012001', wanted(OR_AND))).toEqual([
      [
        'fault',
        ['U1', 'U1.9', 'U1.15'],
        'Memory U1 differs in 2 of 4 rows of the table, at its pin 9 (D0) and its pin 15 (D5): first row 2, address 0x002, stored 20, wanted 01. Write those bytes again, or correct the table.',
      ],
    ]);
  });
  test('says what explains all rows that differ, if one thing does', () => {
    const plan = demoPlan('greenhouse')!;
    const bytes = plan.wanted!.rows.map((row) => row.toString(2).padStart(8, '0').split('').reverse().join(''));
    const turned = bytes.map((b) => Number.parseInt(b, 2).toString(16).toUpperCase().padStart(2, '0')).join('');
    const made = simulate({ ...plan, memories: { U1: { '000': turned } } });
    if (!made.ok) throw new Error(made.failure.says);
    const [found] = findingsNow(made.value).filter((f) => f.code === 'memory/not-as-wanted');
    expect(found && plain(sayFinding(found, plan))).toMatch(
      /wanted [0-9A-F]{2}\. D0 to D7 reversed: that explains all \d+ of 32 rows that differ\. Write those bytes again, or correct the table\.$/,
    );
  });
  test('is a suggestion while the memory is blank and a button is to write it, and a fault where none is', () => {
    expect(heard(writeButton(), wanted(OR_AND)).map(([severity, , says]) => [severity, says])).toEqual([
      ['suggestion', expect.stringMatching(/^Memory U1 is not yet written: it is blank and differs in 3 of 4 rows of the table/)],
    ]);
    expect(heard('', wanted(OR_AND)).map(([severity, , says]) => [severity, says])).toEqual([
      ['fault', expect.stringMatching(/^Memory U1 is not written: it is blank and differs in 3 of 4 rows of the table/)],
    ]);
  });
  test('speaks of no bytes in a memory that has forgotten them', () => {
    const made = buildPlan({
      title: 'Both',
      inputs: ['a', 'b'],
      outputs: [{ name: 'out' }],
      rows: [0, 0, 0, 1],
      memory: 'static-ram-2kx8',
      byHand: true,
      show: 'leds',
      buffered: true,
      amps: 2e-3,
    });
    const sim = made.ok ? simulate(made.value) : made;
    expect(made.ok && sim.ok && findingsNow(sim.value).map((f) => [f.severity, plain(sayFinding(f, made.value))])).toEqual([
      ['suggestion', 'Memory U1 is volatile and holds none of the table yet. Switch the supply on, then write it.'],
    ]);
  });
  test('is a suggestion while bytes are being written and what is missing is still erased', () => {
    expect(heard(`${writeButton()}\nmemory U1 000 00`, wanted(OR_AND)).map(([severity, , says]) => [severity, says])).toEqual([
      ['suggestion', expect.stringMatching(/^Memory U1 is not fully written yet: .* in 2 of 4 rows .*first row 1, address 0x001/)],
    ]);
    expect(heard('memory U1 000 00', wanted(OR_AND)).map(([severity, , says]) => [severity, says])).toEqual([
      ['fault', expect.stringMatching(/^Memory U1 is not fully written: .* in 2 of 4 rows .*first row 1, address 0x001/)],
    ]);
    expect(heard('memory U1 000 0000', wanted(OR_AND)).map(([severity]) => severity)).toEqual(['fault']);
  });
  test('minds what is active low and where any value will do', () => {
    const low = [
      { name: 'or', pin: 'U1.D0', activeLow: true as const },
      { name: 'and', pin: 'U1.D5' },
    ];
    expect(heard('memory U1 000 01000020', wanted(OR_AND, { outputs: low }))).toEqual([]);
    expect(heard('memory U1 000 00010021', wanted(OR_AND, { dontCare: [0, 0, 1, 0] }))).toEqual([]);
    expect(heard('memory U1 000 00010021', wanted(OR_AND))).toHaveLength(1);
  });
  test('reads the row where the other address pins are tied', () => {
    const high = memoryBench('memory U1 040 00010121', 'WA6').concat('\nwire WA6 from a13 to +a2\nwire WAP from +a1 to +j40');
    const plan = { ...read(high), wanted: wanted(OR_AND) };
    const made = simulate(plan);
    expect(made.ok && findingsNow(made.value).filter((f) => f.code === 'memory/not-as-wanted')).toEqual([]);
  });
});
