/** What a part carries: its figures, what its owner calls it, and the holes that its legs are bent to. */

import { isPlainName } from '../../../shared/column-name.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanPart } from '../../../shared/plan.ts';
import { namedPoles, nameOfPole } from '../../../shared/pole-names.ts';
import type { Change } from '../changes.ts';
import { type EditContext, roomBeside, settlePart } from './edit-context.ts';
import { readPoint } from './ids.ts';

/** Longest label that a plan takes. */
const LONGEST = 40;

/**
 * Some figures replaced; the others stay. A figure that decides how many legs there are moves none that stays.
 * Fails with `edit/gone`, `edit/hole-taken`, `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`.
 */
export function setParams(context: EditContext, id: string, params: NonNullable<PlanPart['params']>): Outcome<Change> {
  const before = context.plan.parts.find((p) => p.id === id);
  if (!before) return gone(id);
  const after: PlanPart = { ...before, params: { ...before.params, ...params } };
  return settledAs(context, before, after);
}

/**
 * One leg of a part to another hole: of two wires either; of all else the first, and the others follow.
 * Fails with `edit/gone`, `edit/hole-taken`, `edit/unknown-hole`, `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`.
 */
export function reLeg(context: EditContext, id: string, leg: 'at' | 'to', point: string): Outcome<Change> {
  const before = context.plan.parts.find((p) => p.id === id);
  if (!before) return gone(id);
  if (before[leg] === undefined) return failed('edit/unknown-hole', id, `${id} has no such leg to put into ${point}.`);
  const to = readPoint(context, point);
  if (!to.ok) return to;
  const after: PlanPart = { ...before, [leg]: to.value };
  return settledAs(context, before, after);
}

/** An empty label is none. Fails with `edit/gone` or `edit/too-long`. */
export function setLabel({ plan }: EditContext, id: string, label: string): Outcome<Change> {
  const before = plan.parts.find((p) => p.id === id);
  if (!before) return gone(id);
  const text = label.trim();
  if (text.length > LONGEST) return tooLong(id, text);
  const { label: _, ...bare } = before;
  return done({ op: 'replace', list: 'parts', before, after: text === '' ? bare : { ...before, label: text } });
}

/** What one pole of a switch is called; pole: from 0. An empty name is none. Fails with `edit/gone`, `edit/too-long`, `edit/bad-name` or `edit/name-taken`. */
export function setPoleName({ plan }: EditContext, id: string, pole: number, name: string): Outcome<Change> {
  const before = plan.parts.find((p) => p.id === id);
  if (!before) return gone(id);
  const text = name.trim();
  if (text.length > LONGEST) return tooLong(id, text);
  if (!isPlainName(text)) return failed('edit/bad-name', id, 'Leave quotation marks and line breaks out of the name.');
  const there = namedPoles(plan).get(text.toLowerCase());
  if (there && (there.part !== id || there.pole !== pole))
    return failed('edit/name-taken', id, `Pole ${there.pole + 1} of ${there.part} is called ${there.name} already. Choose another name.`);
  const names = Array.from({ length: Math.max(pole + 1, before.poleNames?.length ?? 0) }, (_, i) =>
    i === pole ? text : (nameOfPole(before, i) ?? ''),
  );
  const { poleNames: _, ...bare } = before;
  return done({ op: 'replace', list: 'parts', before, after: names.every((n) => n === '') ? bare : { ...before, poleNames: names } });
}

function settledAs(context: EditContext, before: PlanPart, after: PlanPart): Outcome<Change> {
  const settled = settlePart(roomBeside(context, new Set([before.id])), context.plan.boards, context.kinds, after);
  return settled.ok ? done({ op: 'replace', list: 'parts', before, after }) : settled;
}

const tooLong = (id: string, text: string): Outcome<never> =>
  failed('edit/too-long', id, `The name has ${text.length} letters, and there is room for ${LONGEST}. Choose a shorter one.`);

const gone = (id: string): Outcome<never> => failed('edit/gone', id, `${id} is not on this bench any more.`);
