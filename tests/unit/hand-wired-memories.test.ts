/** Two memories that a person wired without the builder, their address wires crossed: card, image, proof and sheet work, or say what is missing. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { storeTable } from '../../sim-core/findings/store-table.ts';
import {
  apply,
  buildCircuit,
  buildPlan,
  programmingCard,
  proveTable,
  requestOfTable,
  sayMeasured,
  sheetFor,
  tableOfRules,
  tablePins,
} from '../../sim-core/index.ts';
import { sayLeftOut } from '../../sim-core/text/left-out.ts';
import { TWO_BY_HAND } from '../support/two-by-hand.ts';

const pinsOf = (plan: Plan) => {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) throw new Error(circuit.failure.says);
  return tablePins(circuit.value);
};
const loaded = (plan: Plan): Plan => {
  const change = storeTable(plan, pinsOf(plan));
  if (!change.ok) throw new Error(change.failure.says);
  return apply(plan, change.value);
};
const without = (plan: Plan, wire: { from: string; to: string }): Plan => {
  const wires = plan.wires.filter((l) => l.from !== wire.from || l.to !== wire.to);
  expect(wires.length).toBe(plan.wires.length - 1);
  return { ...plan, wires };
};

describe('two memories wired by hand', () => {
  const plan = TWO_BY_HAND;

  test('the image goes to where the crossed wires ask for it, and every row is proven', () => {
    const after = loaded(plan);
    // rows y x = 01 and 10 lie at each other's address in U2; D1 to D7 of U2 are asked for nothing
    expect([after.memories.U1, after.memories.U2]).toMatchObject([
      { '000': expect.stringMatching(/^FCFDFDFE/) },
      { '000': expect.stringMatching(/^FEFEFFFF/) },
    ]);
    expect(proveTable(after)).toMatchObject({ ok: true, value: { rows: 4, right: 4, differences: [] } });
    expect(sayLeftOut(plan.wanted!, pinsOf(plan), ['U1', 'U2'])).toEqual([]);
  });

  test('there is no card without a write button, and that is said with both cures', () => {
    const card = programmingCard(plan);
    expect(card.ok ? 'a card' : card.failure.says).toBe(
      'U1 has no write button of its own on this bench, so it cannot be written by hand. Load its image in one step, or wire a button to /WE.',
    );
  });

  test('the sheet lists both memories and asks to measure their pins', () => {
    const sheet = sheetFor(plan);
    if (!sheet.ok) throw new Error(sheet.failure.says);
    expect(sheet.value.parts.find((p) => p.title.startsWith('EEPROM'))?.ids).toEqual(['U1', 'U2']);
    const says = sheet.value.stages.flatMap((s) => s.checks.map((c) => sayMeasured(c.about)));
    expect(says.filter((s) => /^U2 pin \d+ \(A0\), .*\(y\) open$/.test(s))).toHaveLength(1);
  });

  test('an address wire that is missing is named, with what it is needed for', () => {
    const open = without(plan, { from: 'b10', to: 'B2:a9' });
    expect(sayLeftOut(open.wanted!, pinsOf(open), ['U1', 'U2'])).toEqual([
      'first (U2.D0): not every input of the table (x, y) is on an address pin of U2. Wire each switch to it, or correct the pins on the Table page.',
    ]);
    expect(storeTable(open, pinsOf(open))).toMatchObject({ ok: false });
  });

  test('a pin that does not exist is named', () => {
    const [either, both, first] = plan.wanted!.outputs;
    const wanted = { ...plan.wanted!, outputs: [either!, { ...both!, pin: 'U1.Q9' }, { ...first!, pin: 'U7.D0' }] };
    expect(sayLeftOut(wanted, pinsOf({ ...plan, wanted }), ['U1', 'U2'])).toEqual([
      'both (U1.Q9): U1 has no such data pin. Correct the pin on the Table page.',
      'first (U7.D0): there is no memory U7 on this bench. Correct the pin on the Table page.',
    ]);
  });
});

describe('bits that the table leaves free', () => {
  const bakery = demoPlan('ticket-counter')!;

  test('a digit that may show anything may show its point too, so that no byte is written for it', () => {
    const { outputs, dontCare: free = [] } = bakery.wanted!;
    const point = outputs.findIndex((o) => o.name === 'point');
    const digit = outputs.reduce((mask, _, i) => (i < point ? mask | (1 << i) : mask), 0);
    for (const f of free) expect(((f >> point) & 1) === 1).toBe((f & digit) === digit);
    expect(free.filter((f) => (f >> point) & 1).length).toBe(156);
  });

  test('the card does not ask for them, so that a bench whose image was loaded has nothing left to write', () => {
    const table = tableOfRules(['a', 'b'], ['q', 'r'], 'q = a\nr = b\nfree when a and b');
    if (!table.ok) throw new Error(table.failure.says);
    const plan = buildPlan(
      requestOfTable(table.value, { title: 'Free', memory: 'eeprom-2kx8', byHand: true, show: 'leds', buffered: true, amps: 4e-3 }),
    );
    if (!plan.ok) throw new Error(plan.failure.says);
    const cards = programmingCard(plan.value);
    expect(cards.ok && cards.value[0]!.steps.map((s) => [s.address, s.byte, s.given])).toHaveLength(3);
    const after = programmingCard(loaded(plan.value));
    expect(after.ok && after.value[0]!.steps).toEqual([]);
  });
});
