/** What a new wire is for, by what its ends reach, and the colour that this gives it. */
import { expect, test } from 'vitest';
import { ROLE_COLOURS, roleOfWire, type WireRole } from '../../client/edit/wire-role.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { demoPlan } from '../../shared/demo-plans.ts';

const bench = makeBenchModel(demoPlan('greenhouse')!);
const memory = bench.specimens.find((s) => s.word)!;
const pin = (name: string) => `${memory.part.id}.${memory.legs.find((l) => l.pin.name === name)!.pin.pin}`;
const supply = bench.specimens.find((s) => s.supply)!;

test.each<[readonly string[], WireRole]>([
  [['+j30', 'j38'], 'rail +'],
  [['-j30', 'j38'], 'rail −'],
  [[`${supply.part.id}.${supply.supply!.plus}`, 'j38'], 'rail +'],
  [[`${supply.part.id}.${supply.supply!.minus}`, 'j38'], 'rail −'],
  [[pin('A3'), 'j38'], 'address'],
  [['j38', pin('D5')], 'data'],
  [['j37', 'j38'], 'other'],
  // /OE hangs on − already
  [[pin('/OE'), 'j38'], 'rail −'],
])('%j is for %s', (ends, role) => {
  expect(roleOfWire(ends, bench)).toBe(role);
});

test('an enable that hangs on no rail yet is one', () => {
  const plan = demoPlan('greenhouse')!;
  const oe = bench.netOfLeg.get(pin('/OE'));
  const loose = { ...plan, wires: plan.wires.filter((w) => bench.netOfWire.get(w.id) !== oe) };
  expect(roleOfWire([pin('/OE'), 'j38'], makeBenchModel(loose))).toBe('enable');
});

test('every role has a colour of its own', () => {
  expect(new Set(Object.values(ROLE_COLOURS)).size).toBe(6);
});
