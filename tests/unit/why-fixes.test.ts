/** A fix is offered only with its proof: right or better at every row, no new damage risk or fault at any setting. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { apply, dryRun, plain, proveTable, sayWhy, type WhyAnswer, whyLed } from '../../sim-core/index.ts';
import { logicChip, start } from '../support/bench.ts';
import { at, greenhouse, wireAt, without, withPart, withWire } from '../support/edited-bench.ts';

const proven = (plan: Plan) => {
  const proof = proveTable(plan);
  return proof.ok ? proof.value.right : 0;
};
const dangers = (plan: Plan) => {
  const found = dryRun(plan);
  return found.ok ? found.value.filter((f) => f.severity === 'damage-risk').map((f) => f.code) : [];
};
/** every LED that is not as on the whole bench is asked about; what is offered is tried here once more */
function offered(plan: Plan): readonly WhyAnswer[] {
  const [sim, whole] = [start(plan), start({ ...greenhouse, switches: plan.switches })];
  const looks = whole.readings().leds;
  return sim
    .readings()
    .leds.filter((l) => looks.find((w) => w.led === l.led)?.brightness !== l.brightness)
    .map((l) => whyLed(sim, l.led));
}
const pullDown = greenhouse.parts.find((p) => p.kind === 'resistor' && Number(p.params?.ohms) > 2e3)!;
const HOT = [true, false, false, false, false];

const MISTAKES: readonly (readonly [string, Plan])[] = [
  ['a pull-down is missing', without(greenhouse, pullDown.id)],
  ['a pull-down is a hundred times too large', withPart(greenhouse, pullDown.id, { params: { ohms: 1e6 } })],
  ['a wire from the memory to the buffer is missing', without(greenhouse, greenhouse.wires.find((w) => /22$/.test(w.from))!.id)],
  ['the enables of the buffer are not tied', without(greenhouse, wireAt('j27').id)],
  ['an LED’s resistor is missing', without(greenhouse, 'R3')],
  ['the supply is set to 2 V', withPart(greenhouse, 'PS1', { params: { volts: 2 } })],
];
describe.each(MISTAKES)('%s', (_, plan) => {
  test.each([
    ['all open', [false, false, false, false, false]],
    ['one closed', HOT],
    ['all closed', [true, true, true, true, true]],
  ])('what is offered with %s mends and harms nothing', (_, sensors) => {
    const before = proven(at(sensors, plan));
    for (const answer of offered(at(sensors, plan))) {
      if (!answer.proof) continue;
      const fixed = apply(at(sensors, plan), answer.proof.change);
      expect(proven(fixed)).toBeGreaterThan(before);
      expect(dangers(fixed)).toEqual([]);
      expect(answer.proof.rows?.right).toBe(32);
    }
  });
});

test('a wrong byte is offered as the table wants it, in all its bits; several as the whole table', () => {
  const image = greenhouse.memories.U1!;
  const first = image['000']!;
  const one = { ...greenhouse, memories: { U1: { ...image, '000': `${first.slice(0, 8)}D7${first.slice(10)}` } } };
  const asked = offered(at([false, false, true, false, false], one)).filter((a) => a.brightness === 'dark');
  expect(asked.length).toBeGreaterThan(0);
  for (const { proof } of asked) expect(proof).toMatchObject({ code: 'store-byte', rows: { was: 31, right: 32, of: 32 } });
  const erased = { ...greenhouse, memories: { U1: { '000': '00'.repeat(16), '010': image['010']! } } };
  const sim = start(at(HOT, erased));
  const dark = whyLed(sim, sim.readings().leds.find((l) => l.brightness === 'dark' && whyLed(sim, l.led).proof)!.led);
  expect(dark.proof).toMatchObject({ code: 'store-table', rows: { right: 32, of: 32 } });
  expect(plain(sayWhy(dark, sim.plan()).proof!.says)).toMatch(
    /^Write the table into memory U1: 1\d bytes differ: .* All 32 rows of the table are then right\.$/,
  );
});

test('a switch that makes the row is no cure of a wrong row, and says what would change a right one', () => {
  const sim = start(at(HOT, greenhouse));
  const asked = sim.readings().leds.map((l) => whyLed(sim, l.led));
  const dark = asked.filter((a) => a.brightness === 'dark' && a.proof);
  expect(dark.length).toBeGreaterThan(0);
  for (const a of dark) expect(a.proof).toMatchObject({ code: 'set-switch', after: { brightness: 'lit' } });
  const rail = withWire(greenhouse, wireAt('j27').id, { to: '+j28' });
  for (const a of offered(at(HOT, rail))) expect(a.proof?.code).not.toBe('set-switch');
});

test('several unused address pins that float are tied in one act', () => {
  const { circuit } = start(greenhouse);
  const memory = circuit.chipById.get('U1')!;
  const used = new Set(greenhouse.wanted!.inputs.map((i) => i.pin));
  const unused = memory.inputs.filter((i) => /^A\d/.test(i.name) && !used.has(`U1.${i.name}`)).map((i) => i.leg.strip);
  const ties = new Set(circuit.layout.ends.filter((e) => unused.includes(e.strip)).map((e) => e.wire.id));
  expect(ties.size).toBe(unused.length);
  const plan = { ...greenhouse, wires: greenhouse.wires.filter((w) => !ties.has(w.id)) };
  const answers = offered(at(HOT, plan));
  expect(answers.length).toBeGreaterThan(0);
  for (const { proof, reasons } of answers) {
    expect(reasons.at(-1)?.code).toBe('pins-untied');
    expect(proof).toMatchObject({ code: 'tie-pins', rows: { right: 32, of: 32 } });
  }
  expect(plain(sayWhy(answers[0]!, plan).proof!.says)).toMatch(
    /^Tie A5 to A10 of memory U1 to GND, with a wire each: .* All 32 rows of the table are then right\.$/,
  );
});

test('an output is not tied to a supply to light an LED', () => {
  // the LED's anode has lost its wire to the output; beside it the output's row is free
  const bench = start(`${logicChip('octal-buffer')}
    wire WE from a40 to -a31
    wire WI from a41 to -a32
    led LED1 from i42 to i50
    resistor R1 330 from j50 to -j40`);
  const { proof } = whyLed(bench, 'LED1');
  expect(proof?.code).not.toBe('add-wire');
});
