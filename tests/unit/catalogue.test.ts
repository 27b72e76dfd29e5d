/** Every part on a test bench of its own does what its own vectors say. */
import { describe, expect, test } from 'vitest';
import { PARTS } from '../../sim-core/index.ts';
import { runVector } from '../support/part-bench.ts';

const WITH_VECTORS = PARTS.filter((kind) => kind.vectors !== undefined);

test('every memory has vectors, and every vector looks at something', () => {
  expect(PARTS.filter((k) => k.group === 'memory' && !k.vectors).map((k) => k.id)).toEqual([]);
  expect(WITH_VECTORS.flatMap((k) => k.vectors ?? []).filter((v) => !v.steps.some((s) => 'see' in s))).toEqual([]);
});

describe.each(WITH_VECTORS.map((kind) => ({ kind, title: kind.title })))('$title', ({ kind }) => {
  test.each(kind.vectors?.map((vector) => ({ vector, says: vector.says })) ?? [])('$says', ({ vector }) => {
    expect(runVector(kind, vector).wrong).toEqual([]);
  });
});
