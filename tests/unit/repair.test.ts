/** The search for a repair: mistakes of every sort taken back by the right act, nothing repaired that is right, and a search that can be stopped. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, asMeant, difference, findRepairs, proveTable, sayRepair, sayRepairsFound, searchRepairs } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { planWith } from '../support/plans.ts';

const greenhouse = demoPlan('greenhouse')!;
const on = { ...greenhouse, switches: { ...greenhouse.switches, PS1: [true] } };

const withWire = (id: string, ends: { from?: string; to?: string }): Plan => ({
  ...on,
  wires: on.wires.map((w) => (w.id === id ? { ...w, ...ends } : w)),
});
const withPart = (id: string, change: Partial<Plan['parts'][number]>): Plan => ({
  ...on,
  parts: on.parts.map((p) => (p.id === id ? { ...p, ...change } : p)),
});

function repairsOf(plan: Plan): string[] {
  const found = findRepairs(plan);
  if (!found.ok) throw new Error(found.failure.says);
  for (const { change } of found.value.repairs) {
    const proof = proveTable(apply(plan, change));
    expect(proof.ok && proof.value.differences).toEqual([]);
  }
  return found.value.repairs.map((r) => sayRepair(r.change, plan));
}

describe('the first repair', () => {
  test.each<[string, Plan, RegExp]>([
    ['an LED the wrong way round', withPart('LED3', { at: 'e46', to: 'f46' }), /^Reverse LED3\.$/],
    [
      'a data wire left out',
      { ...on, wires: on.wires.filter((w) => w.id !== 'W33') },
      /^Connect \w(24 and \w33|33 and \w24) with a wire\.$/,
    ],
    [
      'a pull-down left out',
      { ...on, parts: on.parts.filter((p) => p.id !== 'R13') },
      /^Add resistor R\d+, 10 kΩ, between \w5 and -\w\d+\.$/,
    ],
    ['an erased memory', { ...on, memories: {} }, /^Write the table into U1: 32 bytes differ\.$/],
    ['the supply off', { ...on, switches: { ...on.switches, PS1: [false] } }, /^Switch PS1 on\.$/],
  ])('of %s', (_, plan, says) => {
    expect(repairsOf(plan)[0]).toMatch(says);
  });

  test('of seven reversed data wires, or of two, is one act', () => {
    const exchangedAt = (holes: readonly string[]): Plan => ({
      ...on,
      wires: on.wires.map((w) => {
        const place = holes.indexOf(w.from);
        return place < 0 ? w : { ...w, from: holes.at(-1 - place)! };
      }),
    });
    const holesOf = (pins: readonly string[]) => {
      const { circuit } = start(on);
      const chip = circuit.chipById.get('U1')!;
      return pins.map((name) => {
        const { leg } = [...chip.outputs, ...chip.inputs].find((p) => p.name === name)!;
        const [end] = circuit.layout.ends.filter((e) => e.strip === leg.strip);
        expect(end!.end).toBe('from');
        return end!.wire.from;
      });
    };
    expect(repairsOf(exchangedAt(holesOf(['D0', 'D1', 'D2', 'D3', 'D4', 'D5', 'D6'])))[0]).toMatch(
      /^D0 to D6 are reversed between U1 and U2: move these 6 wires: (W\d+ from \w+ to \w+(, |\.$)){6}/,
    );
    const data = repairsOf(exchangedAt(holesOf(['D1', 'D4'])));
    expect(data[0]).toMatch(/^D1 and D4 are swapped between U1 and U2: move these 2 wires: W\d+ from \w+ to \w+, W\d+ from \w+ to \w+\.$/);
  });

  test('is the difference from the plan as meant, where that is known', () => {
    const meant = asMeant(on).meant;
    const plan = { ...withWire('W30', { to: 'd28' }), ...(meant ? { meant } : {}) };
    expect(repairsOf(plan)[0]).toBe('Move the end of wire W30 from d28 to b27.');
  });
});

test.each<[string, Plan, RegExp]>([
  [
    'a board of the other rails',
    { ...on, boards: on.boards.map((b) => ({ ...b, splitRails: !b.splitRails })) },
    /^Take board B1 with (cut|whole) rails\./,
  ],
  ['a supply of another limit', withPart('PS1', { params: { volts: 5, amps: 0.01 } }), /^Set PS1 to 10 mA\.$/],
])('%s is said, to the last word', (_, meant, says) => {
  const said = sayRepair(difference(on, meant), on);
  expect(said).toMatch(says);
  expect(said).not.toMatch(/undefined|to \.$/);
});

describe('a bench as it comes', () => {
  const bare: Plan = {
    ...greenhouse,
    parts: greenhouse.parts.map((p) => (p.id === 'S1' ? { ...p, params: { poles: 5 } } : p)),
  };

  test('is repaired with its supply off and poles without names', () => {
    expect(bare.switches.PS1?.[0] ?? false).toBe(false);
    const plan = { ...bare, parts: bare.parts.map((p) => (p.id === 'LED3' ? { ...p, at: p.to!, to: p.at! } : p)) };
    expect(repairsOf(plan)).toEqual(['Reverse LED3.']);
  });

  test('is repaired though a wire shorts its supply', () => {
    const plan: Plan = { ...on, wires: [...on.wires, { id: 'W99', from: 'f13', to: 'f14', colour: 'grey' }] };
    expect(repairsOf(plan)[0]).toBe('Remove wire W99.');
  });

  test('of which a memory is still to be written is repaired as though it were', () => {
    const plan: Plan = { ...on, memories: {}, wires: on.wires.filter((w) => w.id !== 'W33') };
    const found = findRepairs(plan);
    if (!found.ok) throw new Error(found.failure.says);
    expect(sayRepairsFound(found.value)).toMatch(/^Every row is right after .*, once the table is written into U1:$/);
    expect(sayRepair(found.value.repairs[0]!.change, plan)).toMatch(/^Connect \w(24 and \w33|33 and \w24) with a wire\.$/);
  });

  test('of which one byte is wrong and the others are still to be written gets the whole table', () => {
    const plan: Plan = { ...on, memories: { U1: { '009': 'FD' } } };
    expect(repairsOf(plan)).toEqual(['Write the table into U1: 32 bytes differ.']);
  });
});

test('where every row is right, there is nothing to repair', () => {
  expect(findRepairs(on)).toMatchObject({ ok: true, value: { wrong: 0, tried: 0, repairs: [] } });
});

test('a plan without a table is refused', () => {
  expect(findRepairs(planWith({}))).toMatchObject({ ok: false, failure: { code: 'table/none' } });
});

test('a search says how far it has come, and can be left at any time', () => {
  const search = searchRepairs({ ...on, memories: {} });
  const [one, two] = [search.next().value, search.next().value];
  expect([one, two]).toMatchObject([{ tried: 1 }, { tried: 2 }]);
  search.return({ ok: true, value: { wrong: 0, tried: 0, of: 0, toWrite: [], repairs: [] } });
  expect(search.next().done).toBe(true);
});
