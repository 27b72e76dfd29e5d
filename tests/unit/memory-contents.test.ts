/** Which contents a plan may give to a memory: up to its last address, to a damaged one any, to other parts none. */
import { expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { simulate } from '../../sim-core/index.ts';
import { MEMORY, planOf } from '../support/bench.ts';

const built = (memories: Plan['memories'], damaged: boolean): string => {
  const plan = planOf(MEMORY);
  const parts = plan.parts.map((p) => (p.id === 'U1' && damaged ? { ...p, damaged: { by: 'supply' as const, measured: 9, limit: 7 } } : p));
  const made = simulate({ ...plan, parts, memories });
  return made.ok ? 'built' : `${made.failure.code} ${made.failure.at}: ${made.failure.says}`;
};

test('its bytes reach to its last address, and those that it keeps beyond', () => {
  expect(built({ U1: { '7FF': '00' } }, false)).toBe('built');
  expect(built({ U1: { '81F': '00' } }, false)).toBe('built');
  expect(built({ U1: { '81F': '0011' } }, false)).toBe(
    'plan/contents-past-end memories/U1/81F: The bytes of U1 from 0x81F on reach address 0x820, but it ends at 0x81F. Move them down or leave them out.',
  );
});

test('of a damaged one nobody knows the size any more: whatever an address can name is kept', () => {
  expect(built({ U1: { FFFFFF: '00' } }, true)).toBe('built');
});

test('contents of what is not there, or no memory, are refused', () => {
  expect(built({ U7: { '000': '00' } }, false)).toMatch(/^plan\/contents-without-memory memories\/U7: The plan has contents for U7, /);
  expect(built({ C1: { '000': '00' } }, false)).toMatch(/^plan\/contents-without-memory memories\/C1: /);
});
