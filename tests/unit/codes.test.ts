/** Codes of failures and findings: each is in use, says what it means in one sentence, and stands on the printed page. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { codesPage } from '../../server/codes-page.ts';
import { FAILURES } from '../../shared/failure-codes.ts';
import { RULES } from '../../sim-core/index.ts';
import { ROOT, readSources } from '../support/sources.ts';

const CATALOGUE = 'shared/failure-codes.ts';
const elsewhere = readSources('client', 'server', 'shared', 'sim-core')
  .filter((s) => s.path !== CATALOGUE)
  .map((s) => s.text)
  .join('\n');

describe('failures', () => {
  test('every code is used', () => {
    expect(Object.keys(FAILURES).filter((code) => !elsewhere.includes(`'${code}'`))).toEqual([]);
  });

  test('every code names a group and a kind, and means something else than the others', () => {
    for (const [code, means] of Object.entries(FAILURES)) {
      expect(code).toMatch(/^[a-z]+\/[a-z]+(-[a-z]+)*$/);
      expect(means).toMatch(/^[A-Z][^.]*\.$/);
    }
    expect(new Set(Object.values(FAILURES)).size).toBe(Object.keys(FAILURES).length);
  });

  test('no failure shares its code with a finding', () => {
    expect(RULES.map((r) => r.code).filter((code) => code in FAILURES)).toEqual([]);
  });
});

test('shared/codes.md is what npm run codes prints', () => {
  expect(readFileSync(join(ROOT, 'shared/codes.md'), 'utf8')).toBe(codesPage(ROOT));
});
