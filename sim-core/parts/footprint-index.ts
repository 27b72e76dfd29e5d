/** What the bench must know of kinds of parts: where their legs come down, and by which letters their specimens are called. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanPart } from '../../shared/plan.ts';
import type { Shape } from '../board/layout.ts';
import type { PartLookup } from '../board/part-lookup.ts';
import { partKind } from './catalogue.ts';
import { type PartKind, readParams } from './part.ts';

/** Reference letters as IEEE 315 has them (from memory), for kinds that name none of their own. */
const LETTERS: Readonly<Record<PartKind['group'], string>> = {
  supply: 'PS',
  memory: 'U',
  logic: 'U',
  switch: 'S',
  passive: 'R',
  led: 'D',
};

export function shapeOf(part: PlanPart): Outcome<Shape> {
  const kind = partKind(part.kind);
  if (!kind) return failed('plan/unknown-part', 'kind', `${part.id} is a "${part.kind}", and Parts has no such part. Pick one from Parts.`);
  const params = readParams(kind, part);
  if (!params.ok) return params;
  return done({ footprint: kind.footprint(params.value), pins: kind.pins(params.value).map((p) => p.pin) });
}

function lettersOf(id: string): string {
  const kind = partKind(id);
  return kind?.letters ?? LETTERS[kind?.group ?? 'passive'];
}

/** What edits and layouts ask about kinds of parts, answered by the catalogue. */
export const partLookup: PartLookup = { shapeOf, lettersOf };
