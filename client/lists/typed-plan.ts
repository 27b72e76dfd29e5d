/** A plan typed as text: what it says, every line that cannot be so, and which thing a line is about. */
import type { Plan } from '../../shared/plan.ts';
import { kinds, layOut, type Readings, type Ref, scanBenchText } from '../core.ts';

export interface Typed {
  readonly plan: Plan;
  readonly problems: readonly { readonly line: number; readonly says: string }[];
}

/** Lines first; where all can be read, whether the bench can stand so. */
export function checkTyped(text: string): Typed {
  const { plan, problems, lineOf } = scanBenchText(text);
  if (problems.length > 0) return { plan, problems };
  const laid = layOut(plan, kinds.shapeOf);
  return { plan, problems: laid.ok ? [] : [{ line: lineOf(laid.failure.at) ?? 1, says: laid.failure.says }] };
}

/** The plan as it stands at this moment: with the bytes that were written and the switches that were set since it was opened. */
export function planNow(
  plan: Plan,
  memories: Plan['memories'],
  readings: Readings | undefined,
  momentary: (part: string) => boolean,
): Plan {
  const hands = { ...plan.hands };
  for (const [part, poles] of Object.entries(readings?.hands ?? {}))
    if (part in hands || (poles.some(Boolean) && !momentary(part))) hands[part] = [...poles];
  return { ...plan, memories, hands };
}

/** The thing that a line of the text speaks of; none for words of the notation and for comments. */
export function refOfLine(line: string, plan: Plan): Ref | undefined {
  const id = /^\s*"?([A-Za-z]\w*)/.exec(line)?.[1] ?? '';
  if (plan.parts.some((p) => p.id === id)) return { kind: 'part', id };
  if (plan.leads.some((l) => l.id === id)) return { kind: 'lead', id };
  return plan.boards.some((b) => b.id === id) ? { kind: 'board', id } : undefined;
}

/** The line, from 0, that a thing is written in first; −1 if in none. */
export const lineOfThing = (text: string, id: string): number => text.split('\n').findIndex((l) => new RegExp(`^\\s*"?${id}\\b`).test(l));
