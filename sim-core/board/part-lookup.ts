/** What edits ask about kinds of parts; the catalogue of parts answers. */

import type { Outcome } from '../../shared/outcome.ts';
import type { PlanPart } from '../../shared/plan.ts';
import type { Shape } from './layout.ts';

export interface PartLookup {
  /** refuses a kind that does not exist, and figures that it cannot have */
  shapeOf(part: PlanPart): Outcome<Shape>;
  /** 'R' for R1, R2, … */
  lettersOf(kind: string): string;
}
