/** What is wrong is said of the thing itself, in the figures of the bench: where it is, where it belongs, what it shorts, what it keeps out of reach. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { memoryBench } from '../../sim-core/findings/example-benches.ts';
import {
  buildPlan,
  checkBench,
  findingsNow,
  findRepairs,
  groupAlike,
  plain,
  proveTable,
  sayFinding,
  sayRepair,
  sayTriedOn,
  sayWhy,
  simulate,
  whyLed,
} from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { at, greenhouse, withPart, withWire } from '../support/edited-bench.ts';

const HOT = [true, false, false, false, false];

function told(plan: Plan, led: string) {
  const sim = start(at(HOT, plan));
  const words = sayWhy(whyLed(sim, led), sim.plan());
  return { headline: plain(words.headline), steps: words.steps.map((s) => plain(s.says)), instead: (words.instead ?? []).map(plain) };
}

const wrongLed = (plan: Plan): string => {
  const [is, was] = [plan, greenhouse].map((p) => start(at(HOT, p)).readings().leds);
  return is!.find((l) => was!.some((w) => w.led === l.led && w.brightness !== l.brightness))!.led;
};

const heard = (plan: Plan) => {
  const checked = checkBench(plan);
  if (!checked.ok) throw new Error(checked.failure.says);
  return groupAlike(checked.value.findings).map((f) => `${f.severity}: ${plain(sayFinding(f, plan))}`);
};

describe('a repair that was found says what is so of the thing', () => {
  test('a chip one row off', () => {
    const { at: hole = '' } = greenhouse.parts.find((p) => p.id === 'U2')!;
    const next = `${hole.charAt(0)}${Number(hole.slice(1)) + 1}`;
    const plan = withPart(greenhouse, 'U2', { at: next });
    expect(told(plan, wrongLed(plan)).steps.at(-1)).toBe(
      `Octal buffer U2 is one row off: with its pin 1 in ${hole} instead of ${next}, every row is right.`,
    );
  });

  test('a supply that is off is called off, and nothing else is said of it', () => {
    const plan = { ...greenhouse, switches: { ...greenhouse.switches, PS1: [false] } };
    const made = simulate(plan, { still: true, bounce: false });
    const words = made.ok ? sayWhy(whyLed(made.value, 'LED2'), plan).steps : [];
    expect(words.map((s) => plain(s.says))).toEqual(['Supply PS1 is switched off.']);
  });

  test('one byte is written by its address, and no other edit of the same memory is offered beside it', () => {
    const rows = greenhouse.memories.U1!;
    const first = rows['000']!;
    const wrong = (Number.parseInt(first.slice(2, 4), 16) ^ 0xff).toString(16).toUpperCase().padStart(2, '0');
    const plan = { ...greenhouse, memories: { U1: { ...rows, '000': `${first.slice(0, 2)}${wrong}${first.slice(4)}` } } };
    expect(told(plan, wrongLed(plan)).instead).toEqual([]);
    const found = findRepairs(plan);
    expect(found.ok && found.value.repairs.map((r) => sayRepair(r.change, plan))[0]).toBe(
      `Write ${first.slice(2, 4)} to address 0x001 of U1.`,
    );
  });
});

test('a supply shorted by a wire is the first thing that why says', () => {
  const lead = greenhouse.wires.find((w) => w.from === 'PS1.+' || w.to === 'PS1.+')!;
  const end = lead.from === 'PS1.+' ? 'to' : 'from';
  const plan = withWire(greenhouse, lead.id, { [end]: '-j30' });
  const { headline, steps } = told(plan, wrongLed(plan));
  expect(headline).toContain(`supply PS1 is shorted by wire ${lead.id}`);
  expect(steps.at(-1)).toContain(`Wire ${lead.id} ends in -j30: with this end in +j`);
  // of the chips no more is said: set to 5 V it is
  expect(heard(plan).join()).not.toContain('Set the supply to 5 V');
});

test('a table that stands where the bench does not read it is no memory that is not yet written', () => {
  const demo = demoPlan('braille-tutor')!;
  // U1 stands at d5: its pin 2 is in row 6
  const tie = demo.wires.find((w) => /^a6$/.test(w.to) && w.from.startsWith('-'))!;
  const plan = withWire(demo, tie.id, { from: tie.from.replace('-', '+') });
  expect(heard(plan)).toContain(
    'fault: Memory U1 holds the table, but not where it is read: U1 pin 2 (A6) is high, and the table stands where it is low. Wire it to −.',
  );
  const proof = proveTable(plan);
  expect(proof.ok && proof.value.notWritten).toBe(0);
  // one that is blank is to be written
  const blank = proveTable({ ...demo, memories: {} });
  expect(blank.ok && blank.value.notWritten).toBeGreaterThan(0);
});

test('an output on a rail is told of with the wire that holds it there', () => {
  const held = start(memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nwire WD from a20 to -a20\nmemory U1 000 01'), {
    still: true,
  });
  const said = groupAlike(findingsNow(held)).map((f) => plain(sayFinding(f, held.circuit.plan)));
  expect(said.find((s) => s.startsWith('Contention'))).toMatch(/Move or remove wire WD\.$/);
});

describe('of a display', () => {
  const built = buildPlan({
    title: 'bar',
    inputs: ['a', 'b'],
    outputs: [{ name: 'x' }, { name: 'y' }],
    rows: [1, 2, 3, 0],
    memory: 'eeprom-2kx8',
    byHand: false,
    show: 'bar',
    buffered: true,
    amps: 3e-3,
  });
  const plan = built.ok ? built.value : greenhouse;

  test('no legs of one LED are swapped', () => {
    const bar = plan.parts.find((p) => p.kind === 'led-bar-graph')!;
    // the other half of a turn has its pin 1 at the other end, across the trench
    const turned = { ...plan, parts: plan.parts.map((p) => (p === bar ? turnedRound(p) : p)) };
    const said = heard(turned).join('\n');
    expect(said).toContain('Rotate LED bar graph DS1 by half a turn');
    expect(said).not.toContain('Swap its legs');
  });

  const turnedRound = (p: Plan['parts'][number]) => ({
    ...p,
    at: `f${Number(p.at!.slice(1)) + 9}`,
    rotated: true as const,
  });
});

test('a chip that is supplied backwards is told of before the currents that follow, and these as one', () => {
  const vcc = greenhouse.wires.find((w) => [w.from, w.to].some((h) => h === '+j20'))!;
  const plan = withWire(greenhouse, vcc.id, { [vcc.from === '+j20' ? 'from' : 'to']: '-j20' });
  const said = heard(plan);
  expect(said[0]).toContain('The supply of octal buffer U2 is reversed');
  expect(said.filter((s) => s.includes('sources 17'))).toHaveLength(1);
  expect(said.find((s) => s.includes('sources 17'))).toContain('Much the same at U1 pin 10 (D1)');
});

test('a supply that the plan has off is said to be off, by the check and by the proof', () => {
  const plan = { ...greenhouse, switches: { ...greenhouse.switches, PS1: [false] } };
  const [checked, proof] = [checkBench(plan), proveTable(plan)];
  expect([checked.ok && checked.value.off, proof.ok && proof.value.off]).toEqual([['PS1'], ['PS1']]);
  expect(sayTriedOn(['PS1'])).toBe('PS1 is off. All of this was tried with it on.');
  const on = proveTable({ ...plan, switches: { ...plan.switches, PS1: [true] } });
  expect(on.ok && on.value.off).toBeUndefined();
});
