/** Cases in which an answer once was false: each stands for its kind. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { apply, plain, proveTable, sayWhy, whyLed } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { at, greenhouse, wireAt, withPart, withWire } from '../support/edited-bench.ts';

/** every LED that is not as on the whole bench, at this setting */
function asked(plan: Plan, sensors: readonly boolean[]) {
  const [sim, whole] = [start(at(sensors, plan)), start(at(sensors, greenhouse))];
  const looks = whole.readings().leds;
  const wrong = sim.readings().leds.filter((l) => looks.some((w) => w.led === l.led && w.brightness !== l.brightness));
  return wrong.map(({ led }) => {
    const answer = whyLed(sim, led);
    const words = sayWhy(answer, sim.plan());
    const fixed = answer.proof && proveTable(apply(sim.plan(), answer.proof.change));
    return {
      answer,
      codes: answer.reasons.map((r) => r.code),
      last: answer.reasons.at(-1),
      text: [plain(words.headline), ...words.steps.map((s) => `${plain(s.says)} [${s.figures}]`)].join('\n'),
      right: fixed?.ok ? fixed.value.right : undefined,
    };
  });
}
const partOf = (id: string) => greenhouse.parts.find((p) => p.id === id)!;
const pullDown = greenhouse.parts.find((p) => p.kind === 'resistor' && Number(p.params?.ohms) > 2e3)!;
const [NONE, HOT, ALL] = [
  [false, false, false, false, false],
  [true, false, false, false, false],
  [true, true, true, true, true],
];
const SETTINGS = [NONE, HOT, ALL];
const everywhere = (plan: Plan) => {
  const all = SETTINGS.flatMap((s) => asked(plan, s));
  expect(all.length).toBeGreaterThan(0);
  return all;
};

test('a missing pull-down is said to be missing, and a resistor is offered, not a wire that shorts the supply', () => {
  const plan = { ...greenhouse, parts: greenhouse.parts.filter((p) => p !== pullDown) };
  for (const { last, answer, right } of everywhere(plan)) {
    expect(last?.code).toBe('pull-missing');
    expect(answer.proof?.code).toBe('add-resistor');
    expect(right).toBe(32);
  }
});
test('a supply wire in the wrong rail is named, no other wire', () => {
  const ground = greenhouse.wires.find(
    (w) => [w.from, w.to].some((h) => h.startsWith('-a')) && [w.from, w.to].some((h) => /^[a-e]\d/.test(h)),
  )!;
  const end = ground.from.startsWith('-a') ? 'from' : 'to';
  for (const { answer, right } of everywhere(withWire(greenhouse, ground.id, { [end]: '+a48' }))) {
    expect(
      answer.reasons.flatMap((r) => (r.code === 'pin-tied' || r.code === 'wire-at-other-rail' ? r.at : [])).map((r) => r.id),
    ).toContain(ground.id);
    if (answer.proof) expect(right).toBe(32);
  }
});
test('an LED lit by a wrong byte leads to the byte, as a dark one does', () => {
  const image = greenhouse.memories.U1!;
  const first = image['000']!;
  const wrong = (Number.parseInt(first.slice(2, 4), 16) ^ 0xff).toString(16).toUpperCase().padStart(2, '0');
  const plan = { ...greenhouse, memories: { U1: { ...image, '000': `${first.slice(0, 2)}${wrong}${first.slice(4)}` } } };
  const all = asked(plan, HOT);
  expect(all.map((a) => a.answer.brightness).sort()).toEqual(expect.arrayContaining(['dark', 'lit']));
  for (const { last, right, answer } of all) {
    expect(last?.code).toBe('not-as-wanted');
    expect(answer.proof?.code).toBe('store-byte');
    expect(right).toBe(32);
  }
});
test('2 V of supply are called 2 V, and not a missing connection', () => {
  for (const { last, codes, text, right } of everywhere(withPart(greenhouse, 'PS1', { params: { volts: 2 } }))) {
    expect(last).toMatchObject({ code: 'supply-set-low', at: [{ kind: 'part', id: 'PS1' }] });
    expect(codes).not.toContain('not-connected');
    expect(text).toMatch(/supply PS1 is set to 2 V, and 4\.5 V is the least that is specified/i);
    expect(right).toBe(32);
  }
});
test('a switch end for end is named, and nothing is called as specified that the table does not want', () => {
  const s1 = partOf('S1');
  const plan = {
    ...greenhouse,
    parts: greenhouse.parts.map((p) => (p === s1 ? { ...p, at: `f${Number(s1.at!.slice(1)) + 4}`, rotated: true as const } : p)),
  };
  const all = [[true, true, false, false, false], HOT].flatMap((s) => asked(plan, s));
  expect(all.length).toBeGreaterThan(0);
  for (const { last, codes, right } of all) {
    expect(codes).not.toContain('as-wanted');
    expect(last).toMatchObject({ code: 'put-right-mends', at: [{ kind: 'part', id: 'S1' }] });
    expect(right).toBe(32);
  }
});
test('an address wire one row off is named', () => {
  const wire = wireAt('b6');
  const off = withWire(greenhouse, wire.id, wire.from === 'b6' ? { from: 'b7' } : { to: 'b7' });
  const all = asked(off, [true, false, false, true, false]);
  expect(all.length).toBeGreaterThan(0);
  for (const { answer, right } of all) {
    expect(answer.reasons.flatMap((r) => r.at).map((r) => r.id)).toContain(wire.id);
    expect(right).toBe(32);
  }
});
describe('a chip one row off is one cause', () => {
  test.each(['U1', 'U2'])('%s', (id) => {
    const chip = partOf(id);
    const plan = withPart(greenhouse, id, { at: `${chip.at!.charAt(0)}${Number(chip.at!.slice(1)) + 1}` });
    for (const { last, right } of everywhere(plan)) {
      expect(last).toMatchObject({ code: 'put-right-mends', at: [{ kind: 'part', id }] });
      expect(right).toBe(32);
    }
  });
});
test('of a table too long to go through, no answer speaks of every row', () => {
  const plan = withPart(greenhouse, 'U2', { at: `${partOf('U2').at!.charAt(0)}${Number(partOf('U2').at!.slice(1)) + 1}` });
  const [{ answer }] = everywhere(plan) as [ReturnType<typeof asked>[number]];
  const proof = { ...answer.proof!, rows: { was: 0, right: 2048, of: 2048, all: 4096 } };
  const told = (reasons: typeof answer.reasons) => sayWhy({ ...answer, reasons, proof }, plan);
  const sampled = answer.reasons.map((r) => (r.code === 'put-right-mends' ? { ...r, data: { ...r.data, everyRow: 0 } } : r));
  expect(plain(told(answer.reasons).headline)).toContain('every row is right');
  expect(plain(told(sampled).headline)).toContain('this LED is right in every row that was tried');
  expect(plain(told(sampled).proof!.says)).toMatch(/ All 2048 rows that were tried, of 4096, are then right\.$/);
});
test('seven reversed data wires are one act', () => {
  const sim = start(greenhouse);
  const memory = sim.circuit.chipById.get('U1')!;
  const ends = memory.spec.word!.data.slice(0, 7).map((name) => {
    const { leg } = memory.outputs.find((o) => o.name === name)!;
    return sim.circuit.layout.ends.filter((e) => e.strip === leg.strip);
  });
  expect(ends.every((e) => e.length === 1)).toBe(true);
  const holes = ends.map(([e]) => e!.wire[e!.end]);
  const plan = ends.reduce((p, [e], i) => withWire(p, e!.wire.id, { [e!.end]: holes[6 - i]! }), greenhouse);
  for (const { last, answer, right, codes } of everywhere(plan)) {
    expect(codes).not.toContain('as-wanted');
    // D3 stays where it is
    expect(last).toMatchObject({ code: 'wires-exchanged', data: { wires: 6 } });
    expect(answer.proof?.code).toBe('move-wires');
    expect(right).toBe(32);
  }
});
test('an LED that is not connected is called that', () => {
  const free = withPart(greenhouse, 'LED4', { at: 'b63', to: 'b62' });
  const [one] = asked(free, [false, false, true, false, false]).filter((a) => a.answer.led === 'LED4');
  expect(one?.codes).toEqual(['led-not-connected']);
  expect(one?.text).toMatch(/^LED4 \(heater\) is dark: it is not connected: nothing else is in the row of either leg\./);
});
test('an LED whose resistor goes to plus is not called reversed', () => {
  const r3 = partOf('R3');
  const rail = r3.at!.startsWith('-') ? 'at' : 'to';
  const plan = withPart(greenhouse, 'R3', { [rail]: (r3[rail] ?? '').replace('-', '+') });
  for (const { codes } of SETTINGS.flatMap((s) => asked(plan, s))) expect(codes).not.toContain('led-reversed');
});
