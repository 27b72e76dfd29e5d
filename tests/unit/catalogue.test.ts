/** Every part on a test bench of its own does what its vectors say. */
import { describe, expect, test } from 'vitest';
import { PARTS } from '../../sim-core/index.ts';
import { runVector } from '../support/part-bench.ts';
import { PART_VECTORS } from '../vectors/of-parts.ts';

const WITH_VECTORS = PARTS.flatMap((kind) => {
  const vectors = PART_VECTORS.get(kind.id);
  return vectors ? [{ kind, title: kind.title, vectors }] : [];
});

test('every memory has vectors, and every vector looks at something', () => {
  expect(PARTS.filter((k) => k.group === 'memory' && !PART_VECTORS.has(k.id)).map((k) => k.id)).toEqual([]);
  expect(WITH_VECTORS.flatMap((k) => k.vectors).filter((v) => !v.steps.some((s) => 'see' in s))).toEqual([]);
});

describe.each(WITH_VECTORS)('$title', ({ kind, vectors }) => {
  test.each(vectors.map((vector) => ({ vector, says: vector.says })))('$says', ({ vector }) => {
    expect(runVector(kind, vector).wrong).toEqual([]);
  });
});

/** Forward voltage at 10 mA, lowest, typical, highest [V]. */
const FORWARD: Readonly<Record<string, readonly number[]>> = { diode: [0.62, 0.72, 1], 'rectifier-diode': [0.58, 0.67, 0.8] };

test('whatever differs from specimen to specimen says by how much and whence: every passive part, supply, clock and timer', () => {
  const varies = PARTS.filter((k) => ['passive', 'supply'].includes(k.group) || ['crystal-oscillator', 'timer'].includes(k.id));
  expect(varies.length).toBeGreaterThan(8);
  for (const kind of varies) {
    const { spread, forward } = kind;
    const source = spread?.source ?? forward?.source ?? '';
    expect(source, kind.id).toMatch(/^(SOURCES\.md S\d+|common practice, no source|from memory|derived: )/);
    if (forward) expect([forward.least, forward.typical, forward.most], kind.id).toEqual(FORWARD[kind.id]);
    if (!spread) continue;
    const tolerance = kind.params.find((p) => p.name === 'tolerance');
    expect(tolerance?.type === 'number' && tolerance.fallback, kind.id).toBeGreaterThan(0);
    expect(kind.params.find((p) => p.name === spread.of)?.type, kind.id).toBe('number');
  }
});
