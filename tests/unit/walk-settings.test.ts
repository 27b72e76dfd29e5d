/** The walk over the settings of a bench's switches: those that steer in every combination, each of the others by itself, and at the end all as it was. */
import { expect, test } from 'vitest';
import { switchedOn, switchesAt, walkSettings } from '../../sim-core/run/circuit/switch-settings.ts';
import { planOf, start } from '../support/bench.ts';

const bench = (poles: number, hands: string) =>
  `board-63 B1\nbench-supply PS1\ndip-switch S1 at e10 with poles ${poles}\nswitch S1 set ${hands}\npush-button S9 at e40`;

/** Each setting as digits, with how far it is from the plan's own. */
function walked(poles: number, hands: string, steers: readonly number[]): string[] {
  const sim = start(bench(poles, hands));
  const seen: string[] = [];
  walkSettings(
    sim,
    (c) => steers.includes(c.pole),
    (setting, away, all) => {
      const digits = all.map((c) => (setting.get(c) ? '1' : '0')).join('');
      expect(sim.readings().switches.S1?.map(Number).join('')).toBe(digits);
      seen.push(`${digits} ${away}`);
    },
  );
  expect(sim.readings().switches).toMatchObject({ S1: [...hands].map((h) => h === '1') });
  return seen;
}

test('two of four poles steer: four combinations and back, then the other two by themselves', () => {
  expect(walked(4, '0100', [0, 1])).toEqual(['0100 0', '1100 1', '1000 2', '0000 1', '0100 0', '0110 1', '0101 1']);
});

test('where none steers, each pole is moved by itself', () => {
  expect(walked(2, '10', [])).toEqual(['10 0', '00 1', '11 1']);
});

test('eight that steer are tried in all 256 combinations, nine each by itself', () => {
  const all = [0, 1, 2, 3, 4, 5, 6, 7, 8];
  const eight = walked(8, '00000000', all);
  expect(eight).toHaveLength(257);
  expect(new Set(eight.map((s) => s.split(' ')[0])).size).toBe(256);
  expect(eight).toContain('11111111 8');
  const nine = walked(9, '000000000', all);
  expect(nine).toHaveLength(10);
  expect(new Set(nine.slice(1).map((s) => s.split(' ')[1]))).toEqual(new Set(['1']));
});

test('with the supplies on, buttons are let go and switches stay', () => {
  const sim = start(bench(2, '01'));
  const plan = { ...sim.plan(), switches: { PS1: [false], S1: [false, true], S9: [true] } };
  expect(switchedOn(plan, sim.circuit).switches).toEqual({ PS1: [true], S1: [false, true] });
  expect(plan.switches).toEqual({ PS1: [false], S1: [false, true], S9: [true] });
});

test('hands at a setting: poles that the plan does not name are open, other switches stay', () => {
  const sim = start(bench(3, '010'));
  const plan = planOf(bench(3, '010'));
  const [first, , third] = sim.circuit.contacts.filter((c) => !c.contact.momentary);
  const setting = new Map([
    [first!, true],
    [third!, true],
  ]);
  expect(switchesAt({ ...plan, switches: { PS1: [true] } }, setting)).toEqual({ PS1: [true], S1: [true, false, true] });
  expect(switchesAt(plan, setting).S1).toEqual([true, true, true]);
  expect(switchesAt(plan, undefined)).toEqual(plan.switches);
});
