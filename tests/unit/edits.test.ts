/** Edits of a bench: what each does to holes, wires and all that hangs on a part, what is refused and in which words, and that all can be taken back. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { addBoard, cutRails, moveBoard } from '../../sim-core/document/edits/boards.ts';
import { storeBytes } from '../../sim-core/document/edits/bytes.ts';
import { copy, paste, repeatAlongRows } from '../../sim-core/document/edits/copy.ts';
import { type EditContext, editContext } from '../../sim-core/document/edits/edit-context.ts';
import { move } from '../../sim-core/document/edits/move.ts';
import { place } from '../../sim-core/document/edits/place.ts';
import { setLabel, setParams } from '../../sim-core/document/edits/properties.ts';
import { remove } from '../../sim-core/document/edits/remove.ts';
import { flip, turn } from '../../sim-core/document/edits/rotate.ts';
import { addWire, joinRails, recolour, reEnd } from '../../sim-core/document/edits/wires.ts';
import { apply, type Change, findNets, invert, type Outcome, PARTS, simulate } from '../../sim-core/index.ts';
import { partLookup } from '../../sim-core/parts/footprint-index.ts';
import { MEMORY, planOf } from '../support/bench.ts';

function on(plan: Plan): EditContext {
  const ground = editContext(plan, partLookup);
  if (!ground.ok) throw new Error(ground.failure.says);
  return ground.value;
}
const bench = (text: string) => on(planOf(text));
function made(ground: EditContext, change: Outcome<Change>): Plan {
  if (!change.ok) throw new Error(change.failure.says);
  return on(apply(ground.plan, change.value)).plan;
}
const refusal = (change: Outcome<unknown>) => (change.ok ? 'done' : change.failure.says);

describe('a part is placed', () => {
  test('with the next free id by its letters', () => {
    const ground = bench('board-30 B1\nresistor R1 from a3 to a7\nresistor R3 from a9 to a13\nled LED1 from c20 to c21');
    expect(made(ground, place(ground, { kind: 'resistor', at: 'c15' })).parts.at(-1)).toMatchObject({ id: 'R2', at: 'c15', to: 'c19' });
    expect(made(ground, place(ground, { kind: 'capacitor', at: 'c15' })).parts.at(-1)).toMatchObject({ id: 'C1', to: 'c17' });
    expect(made(ground, place(ground, { kind: 'eeprom-2kx8', at: 'D2' })).parts.at(-1)).toMatchObject({ id: 'U1', at: 'd2' });
  });
  test('with its second leg where there is room: never on the same metal as the first', () => {
    const ground = bench('board-30 B1\nresistor R1 from a19 to b15');
    expect(made(ground, place(ground, { kind: 'resistor', at: 'a15' })).parts.at(-1)?.to).toBe('a20');
    const last = made(ground, place(ground, { kind: 'led', at: 'e30' })).parts.at(-1);
    expect(last?.to).toBe('e29');
    expect(made(ground, place(ground, { kind: 'resistor', at: '-a12' })).parts.at(-1)?.to).toMatch(/^-a\d+$|^[a-e]\d+$/);
  });
  test('without a place named, in rows where nothing stands', () => {
    const ground = bench(`${MEMORY}\nresistor R9 from c2 to c6`);
    const plan = made(ground, place(ground, { kind: 'eeprom-2kx8' }));
    const { at } = plan.parts.at(-1)!;
    expect(at).toBe('d25');
    const nets = findNets(on(plan).layout);
    expect(nets.all.filter((n) => n.legs.some((l) => l.part.id === 'U2')).every((n) => n.legs.length === 1)).toBe(true);
  });
  test('beside the boards if it has no legs for holes, clear of what stands there', () => {
    const ground = bench('board-30 B1\nbench-supply PS1');
    const plan = made(ground, place(ground, { kind: 'bench-supply' }));
    expect(plan.parts.at(-1)).toMatchObject({ id: 'PS2', spot: [14.5, -7] });
  });
  test('by a name typed in capitals, on a board named in small letters', () => {
    const ground = bench('board-30 B1\nboard-30 B2');
    expect(made(ground, place(ground, { kind: 'dip-switch', at: 'b2:E14' })).parts.at(-1)?.at).toBe('B2:e14');
  });
  test('not where a hole is taken: hole and occupant are named', () => {
    const ground = bench('board-30 B1\nresistor R3 from a10 to d17\nwire W1 red from e20 to e22');
    expect(refusal(place(ground, { kind: 'eeprom-2kx8', at: 'd14' }))).toBe(
      'd17 is taken by R3 pin 2. Choose another place, or delete that first.',
    );
    expect(refusal(place(ground, { kind: 'resistor', at: 'e20' }))).toBe(
      'e20 is taken by wire W1. On the same strip a20, b20, c20 are free.',
    );
    expect(refusal(place(ground, { kind: 'eeprom-2kx8', at: 'a14' }))).toMatch(/no hole for pin/);
    expect(refusal(place(ground, { kind: 'resistor', at: 'k3' }))).toMatch(/^k3 is not the name of a tie point/);
    expect(refusal(place(ground, { kind: 'resistor', at: 'a3', params: { ohms: -1 } }))).toMatch(/ohms is -1/);
  });
  test('every kind of part finds a place on an empty bench', () => {
    for (const kind of PARTS) {
      const ground = bench('board-63 B1');
      const plan = made(ground, place(ground, { kind: kind.id }));
      expect(simulate(plan).ok, kind.id).toBe(true);
    }
  });
});

describe('a chip is moved', () => {
  const ground = bench(`${MEMORY}\nled LED1 from c40 to c41`);
  const net = (plan: Plan, pin: string) => {
    const { layout } = on(plan);
    const it = findNets(layout).all.find((n) => n.legs.some((l) => `${l.part.id}.${l.pin}` === pin));
    return it?.legs.map((l) => `${l.part.id}.${l.pin}`).sort();
  };
  test('along its board, and its wires go with it', () => {
    const plan = made(ground, move(ground, ['U1'], [10, 0]));
    expect(plan.parts.find((p) => p.id === 'U1')?.at).toBe('d22');
    expect(plan.wires.find((l) => l.id === 'P4')).toMatchObject({ from: '+j10', to: 'i22' });
    for (const pin of ['U1.24', 'U1.12', 'U1.8', 'U1.20'])
      expect(net(plan, pin)!.filter((l) => !l.startsWith('C1'))).toEqual(net(ground.plan, pin)!.filter((l) => !l.startsWith('C1')));
  });
  test('across, and its wires stay where its rows have stayed', () => {
    const plan = made(ground, move(ground, ['U1'], [0, -1]));
    expect(plan.parts.find((p) => p.id === 'U1')?.at).toBe('e12');
    for (const pin of ['U1.24', 'U1.12']) expect(net(plan, pin)).toEqual(net(ground.plan, pin));
  });
  test('beside a wire of its own: neither takes the hole where an end of the other stays', () => {
    const board = bench(`${MEMORY}\nwire W1 red from c40 to +j6`);
    expect(board.plan.wires.find((l) => l.id === 'P4')?.from).toBe('+j10');
    const plan = made(board, move(board, ['U1', 'W1'], [4, 0]));
    expect(plan.wires.find((l) => l.id === 'P4')?.from).toBe('+j10');
    expect(plan.wires.find((l) => l.id === 'W1')?.to).toMatch(/^\+j(9|11)$/);
    const tight = bench(`${MEMORY}\nwire W1 red from c12 to e30`);
    expect(refusal(move(tight, ['U1'], [12, -1]))).toMatch(/taken by/);
  });
  test('not off the board, and not into a hole that is taken', () => {
    expect(refusal(move(ground, ['U1'], [60, 0]))).toMatch(/^U1 has no holes there/);
    const near = bench(`${MEMORY}\nresistor R1 from d24 to c30`);
    expect(refusal(move(near, ['U1'], [1, 0]))).toBe('d24 is taken by R1 pin 1. Choose another place, or delete that first.');
  });
  test('what is moved together keeps its distance, and an end in a rail stays on its rail', () => {
    const group = bench('board-63 B1\nled LED1 from c40 to c41\nresistor R1 from a41 to -a35\nwire W1 red from d40 to b20');
    const plan = made(group, move(group, ['LED1', 'R1', 'W1'], [1, 0]));
    expect(plan.parts).toMatchObject([{ at: 'c41', to: 'c42' }, { at: 'a42' }]);
    expect(plan.parts[1]?.to).toMatch(/^-a3[56]$/);
    expect(plan.wires[0]).toMatchObject({ from: 'd41', to: 'b21' });
  });
});

describe('a part is turned', () => {
  test('end for end within its own holes, and twice is nothing', () => {
    const ground = bench('board-30 B1\noctal-buffer U1 at e5\npush-button S1 at e20');
    const once = made(ground, turn(ground, ['U1', 'S1']));
    expect(once.parts).toMatchObject([
      { at: 'f14', rotated: true },
      { at: 'f22', rotated: true },
    ]);
    const holes = (plan: Plan) =>
      on(plan)
        .layout.legs.map((l) => l.strip)
        .sort();
    expect(holes(once)).toEqual(holes(ground.plan));
    expect(made(on(once), turn(on(once), ['U1', 'S1']))).toEqual(ground.plan);
  });
  test('an LED the other way round', () => {
    const ground = bench('board-30 B1\nled LED1 from c20 to c21');
    expect(made(ground, flip(ground, ['LED1'])).parts[0]).toMatchObject({ at: 'c21', to: 'c20' });
  });
  test('a resistor by quarters about its first leg', () => {
    const ground = bench('board-30 B1\nresistor R1 from e10 to e14');
    expect(made(ground, turn(ground, ['R1'])).parts[0]?.at).toBe('e10');
    expect(made(ground, turn(ground, ['R1'])).parts[0]?.to).toMatch(/^e[56]$|^[f-j]10$/);
  });

  test('two resistors at once never come to the same hole', () => {
    const ground = bench('board-30 B1\nresistor R1 from a10 to a14\nresistor R2 from b12 to b8\nresistor R3 from c10 to c14');
    const plan = made(ground, turn(ground, ['R1', 'R2', 'R3']));
    expect(plan.parts.map((p) => p.at)).toEqual(['a10', 'b12', 'c10']);
    expect(new Set(plan.parts.map((p) => p.to)).size).toBe(3);
  });
});

describe('wires', () => {
  const ground = bench('board-30 B1\nbench-supply PS1\nresistor R1 from a3 to a7\nwire W1 red from PS1.+ to +j1');
  test('run from hole to hole, to a terminal, or to a free hole of a leg’s row', () => {
    expect(made(ground, addWire(ground, 'B3', 'c9', 'green')).wires.at(-1)).toEqual({ id: 'W2', from: 'b3', to: 'c9', colour: 'green' });
    expect(made(ground, addWire(ground, 'ps1.-', 'r1.2', 'black')).wires.at(-1)).toMatchObject({ from: 'PS1.-', to: 'b7' });
  });
  test('are refused where they cannot be pushed in, or would join nothing', () => {
    expect(refusal(addWire(ground, 'a3', 'c9', 'green'))).toBe('a3 is taken by R1 pin 1. On the same strip b3, c3, d3 are free.');
    expect(refusal(addWire(ground, 'b3', 'd3', 'green'))).toMatch(/^b3 and d3 are already connected on the board/);
    expect(refusal(addWire(ground, 'b3', 'PS9.+', 'green'))).toMatch(/^There is no leg or terminal PS9\.\+/);
    expect(refusal(reEnd(ground, 'W1', 'to', '+j99'))).toMatch(/holes 1 to 25/);
  });
  test('take another colour and another end', () => {
    expect(made(ground, recolour(ground, ['W1'], 'blue')).wires[0]?.colour).toBe('blue');
    expect(made(ground, reEnd(ground, 'W1', 'to', '+a4')).wires[0]).toMatchObject({ from: 'PS1.+', to: '+a4' });
  });
  test('join all rails of all boards in one act, halves of cut rails too, and once is enough', () => {
    const boards = bench('board-63 B1 split rails\nboard-30 B2\nwire W1 red from +j1 to +a1');
    const plan = made(boards, joinRails(boards));
    const nets = findNets(on(plan).layout).all;
    expect(nets.map((n) => n.strips.length).sort()).toEqual([6, 6]);
    expect(plan.wires).toHaveLength(10);
    expect(refusal(joinRails(on(plan)))).toMatch(/already connected/);
  });
});

describe('what is taken off', () => {
  test('takes along its contents, where its switches stand, its meters and the wires at its terminals', () => {
    const { plan } = bench(`${MEMORY}\nmemory U1 000 FF`);
    const full: Plan = {
      ...plan,
      meters: [
        { id: 'M1', measures: 'amps', leg: 'PS1.+' },
        { id: 'M2', measures: 'volts', at: 'a3' },
      ],
    };
    const rest = made(on(full), remove(on(full), ['U1', 'PS1']));
    expect(rest.parts.map((p) => p.id)).toEqual(['C1']);
    expect(rest).toMatchObject({ memories: {}, switches: {}, meters: [{ id: 'M2' }] });
    expect(rest.wires.some((l) => l.from.startsWith('PS1'))).toBe(false);
    expect(rest.wires.length).toBe(plan.wires.length - 2);
  });
  test('is a whole board with all that stands on it', () => {
    const ground = bench(
      'board-30 B1\nboard-30 B2\nresistor R1 from a3 to a7\nresistor R2 from B2:a3 to B2:a7\nwire W1 red from b3 to B2:b3\nwire W2 red from B2:c7 to B2:c9',
    );
    const plan = made(ground, remove(ground, ['B1']));
    expect([plan.boards, plan.parts, plan.wires].map((l) => l.map((x) => x.id).join())).toEqual(['B2', 'R2', 'W2']);
  });
});

describe('copies', () => {
  const row = bench(
    'board-63 B1\nled LED1 from c10 to c11 called "LED 1"\nresistor R1 from a11 to -a9\nwire W1 yellow from b10 to b30\ndip-switch S1 at e40 with poles 2\nswitch S1 set 10',
  );
  test('stand in rows where nothing stands, with the wires between them and new names', () => {
    const pasted = paste(row, copy(row, ['LED1', 'R1']));
    const plan = made(row, pasted.ok ? { ok: true, value: pasted.value.change } : pasted);
    expect(plan.parts.slice(3).map((p) => p.id)).toEqual(['LED2', 'R2']);
    expect(
      findNets(on(plan).layout)
        .all.find((n) => n.legs.some((l) => l.part.id === 'LED2' && l.pin === '2'))
        ?.legs.map((l) => l.part.id),
    ).toEqual(['LED2', 'R2']);
    const used = on(row.plan).layout.legs.map((l) => l.strip);
    expect(
      on(plan)
        .layout.legs.filter((l) => l.part.id === 'LED2')
        .every((l) => !used.includes(l.strip)),
    ).toBe(true);
  });
  test('go where a tie point is named, or say which hole is taken', () => {
    const pasted = paste(row, copy(row, ['LED1']), 'h20');
    expect(pasted.ok && apply(row.plan, pasted.value.change).parts.at(-1)).toMatchObject({ at: 'h20', to: 'h21' });
    expect(refusal(paste(row, copy(row, ['LED1']), 'e40'))).toMatch(/^e40 is taken by S1 pin 1\./);
  });
  test('eight LEDs with their resistors and wires are one act', () => {
    const eight = repeatAlongRows(row, ['LED1', 'R1', 'W1'], 7, 2);
    const plan = made(row, eight.ok ? { ok: true, value: eight.value.change } : eight);
    expect(plan.parts.filter((p) => p.kind === 'led').map((p) => p.label)).toEqual([
      'LED 1',
      ...[2, 3, 4, 5, 6, 7, 8].map((n) => `LED ${n}`),
    ]);
    expect(plan.wires.map((l) => l.to)).toEqual(['b30', 'b32', 'b34', 'b36', 'b38', 'b40', 'b42', 'b44']);
    expect(refusal(repeatAlongRows(row, ['LED1'], 40, 2))).toMatch(/leave the board|taken by/);
  });
  test('keep what a memory holds and how switches stand', () => {
    const pasted = paste(row, copy(row, ['S1']));
    expect(pasted.ok && apply(row.plan, pasted.value.change).switches).toEqual({ S1: [true, false], S2: [true, false] });
  });
});

describe('any edits in any order', () => {
  const start = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;
  const KINDS = PARTS.map((p) => p.id);
  const point = fc.oneof(
    fc.tuple(fc.constantFrom('', 'B2:', 'B3:'), fc.constantFrom(...'abcdefghij'), fc.integer({ min: 1, max: 64 })).map((t) => t.join('')),
    fc.tuple(fc.constantFrom('+j', '-j', '+a', '-a'), fc.integer({ min: 1, max: 50 })).map((t) => t.join('')),
    fc.constantFrom('PS1.+', 'PS1.-', 'U1.8'),
  );
  type Edit = (g: EditContext, pick: (n: number) => string) => Outcome<Change>;
  const thing = fc.nat(10_000);
  const by = fc.tuple(fc.integer({ min: -12, max: 12 }), fc.integer({ min: -3, max: 3 }));
  const unpack = (o: ReturnType<typeof paste>): Outcome<Change> => (o.ok ? { ok: true, value: o.value.change } : o);
  const edit: fc.Arbitrary<Edit> = fc.oneof(
    fc.record({ kind: fc.constantFrom(...KINDS), at: fc.option(point, { nil: undefined }) }).map(
      (p): Edit =>
        (g) =>
          place(g, p.at ? { kind: p.kind, at: p.at } : { kind: p.kind }),
    ),
    fc.tuple(fc.array(thing, { minLength: 1, maxLength: 4 }), by).map(
      ([ids, d]): Edit =>
        (g, pick) =>
          move(g, ids.map(pick), d),
    ),
    fc.array(thing, { minLength: 1, maxLength: 4 }).map(
      (ids): Edit =>
        (g, pick) =>
          turn(g, ids.map(pick)),
    ),
    fc.array(thing, { minLength: 1, maxLength: 4 }).map(
      (ids): Edit =>
        (g, pick) =>
          flip(g, ids.map(pick)),
    ),
    fc.array(thing, { minLength: 1, maxLength: 3 }).map(
      (ids): Edit =>
        (g, pick) =>
          remove(g, ids.map(pick)),
    ),
    fc.tuple(point, point).map(
      ([a, b]): Edit =>
        (g) =>
          addWire(g, a, b, 'green'),
    ),
    fc.tuple(thing, fc.constantFrom('from', 'to'), point).map(
      ([n, end, p]): Edit =>
        (g) =>
          reEnd(g, g.plan.wires[n % Math.max(1, g.plan.wires.length)]?.id ?? 'W1', end as 'from', p),
    ),
    fc.tuple(thing, fc.constantFrom('red', 'blue')).map(
      ([n, c]): Edit =>
        (g, pick) =>
          recolour(g, [pick(n)], c),
    ),
    fc.tuple(thing, fc.string({ maxLength: 45 })).map(
      ([n, s]): Edit =>
        (g, pick) =>
          setLabel(g, pick(n), s),
    ),
    fc.tuple(thing, fc.constantFrom<Record<string, number | string>>({ ohms: 4700 }, { poles: 3 }, { colour: 'blue' })).map(
      ([n, p]): Edit =>
        (g, pick) =>
          setParams(g, pick(n), p),
    ),
    fc.array(thing, { minLength: 1, maxLength: 4 }).map(
      (ids): Edit =>
        (g, pick) =>
          unpack(paste(g, copy(g, ids.map(pick)))),
    ),
    fc.tuple(thing, fc.integer({ min: 1, max: 3 }), fc.integer({ min: -3, max: 3 })).map(
      ([n, t, s]): Edit =>
        (g, pick) =>
          unpack(repeatAlongRows(g, [pick(n)], t, s)),
    ),
    fc.constantFrom<Edit>(
      (g) => addBoard(g, 'board-30'),
      (g) => joinRails(g),
      (g) => cutRails(g, 'B1', true),
    ),
    by.map(
      (d): Edit =>
        (g) =>
          moveBoard(g, 'B2', [d[0], 21 + d[1]]),
    ),
    fc.constant<Edit>((g) => remove(g, [g.plan.boards[0]?.id ?? 'B1'])),
  );
  test('leave a bench that stands after each, and, undone in full, the bit-same document', () => {
    let done = 0;
    const kinds = new Set<string>();
    fc.assert(
      fc.property(fc.array(fc.tuple(edit, fc.nat(14)), { minLength: 1, maxLength: 25 }), (edits) => {
        let ground = on(start);
        const changes: Change[] = [];
        for (const [make] of edits) {
          const ids = [...ground.plan.parts, ...ground.plan.wires].map((x) => x.id);
          const change = make(ground, (n) => ids[n % Math.max(1, ids.length)] ?? 'R1');
          if (!change.ok) {
            expect(change.failure.says).toMatch(/\.$/);
            continue;
          }
          done += 1;
          for (const c of change.value.op === 'all' ? change.value.changes : [change.value])
            kinds.add(`${c.op} ${'list' in c ? c.list : 'field' in c ? c.field : ''}`);
          changes.push(change.value);
          ground = on(apply(ground.plan, change.value));
          expect(readPlan(JSON.stringify(ground.plan)).ok).toBe(true);
        }
        const back = changes.reverse().reduce((plan, c) => apply(plan, invert(c)), ground.plan);
        expect(JSON.stringify(back)).toBe(JSON.stringify(start));
      }),
      { numRuns: 120 },
    );
    expect(done).toBeGreaterThan(300);
    expect(kinds.size).toBeGreaterThanOrEqual(10);
  });
});

describe('bytes are stored from outside', () => {
  const size = 2048;
  const stored = (memory: Plan['memories'], address: string, bytes: string) => {
    const ground = { ...bench('board-30 B1\neeprom-2kx8 U1 at e3') };
    const plan = { ...ground.plan, memories: memory };
    const change = storeBytes({ ...ground, plan }, 'U1', size, address, bytes);
    if (!change.ok) return change.failure.says;
    const after = apply(plan, change.value);
    expect(JSON.stringify(apply(after, invert(change.value)))).toBe(JSON.stringify(plan));
    return after.memories.U1;
  };
  test('in a row that is there, right after one, and alone', () => {
    expect(stored({ U1: { '000': '0011223344' } }, '003', '5a')).toEqual({ '000': '0011225A44' });
    expect(stored({ U1: { '000': '0011' } }, '2', '5A 0xA5')).toEqual({ '000': '00115AA5' });
    expect(stored({}, '0x7ff', '5A')).toEqual({ '7FF': '5A' });
    expect(stored({ U1: { '000': '0011', '003': '44' } }, '1', '99AABB')).toEqual({ '000': '0099AA', '003': 'BB' });
  });
  test('refused where there is no such address or byte', () => {
    expect(stored({}, '800', '5A')).toBe('"800" is no address of U1. Write a hexadecimal number from 0 to 0x7FF, such as 0x003.');
    expect(stored({}, '7FF', '5A 5B')).toBe('2 bytes from 0x7FF on go past 0x7FF, the last address of U1. Write fewer, or begin earlier.');
    expect(stored({}, '3', '5')).toBe('"5" is no byte. Write two hexadecimal digits a byte, from 00 to FF, such as 5A.');
    expect(stored({}, 'three', '5A')).toMatch(/^"three" is no address/);
  });
});
