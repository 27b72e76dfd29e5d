/** What every refusal keeps to, whatever was read: a sentence that a person reads at a glance, and a place. */
import { expect } from 'vitest';
import type { Failure } from '../../shared/outcome.ts';

/** Longest sentence: one that lists every entry that a part of a plan knows, or the columns of a wide table [characters]. */
const MOST = 600;

export function expectOneSentence({ code, at, says }: Failure): void {
  expect(code).toMatch(/^[a-z]+\/[a-z-]+$/);
  expect(at.length, `${code}: the place`).toBeLessThanOrEqual(120);
  expect(says.length, `${code}: ${says.slice(0, 200)}`).toBeLessThanOrEqual(MOST);
  expect(says).toMatch(/[.?]$/);
  // a sentence is one line
  expect(says).not.toMatch(/[\n\r]/);
}
