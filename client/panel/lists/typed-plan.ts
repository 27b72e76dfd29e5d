/** A plan typed as text: what it says, every line that cannot be so, and which thing a line is about. */

import type { Plan } from '../../../shared/plan.ts';
import { sameValue } from '../../../shared/same-value.ts';
import { difference, digitsByAddress, layOut, partLookup, type Ref, scanBenchText } from '../../../sim-core/index.ts';

export interface Typed {
  readonly plan: Plan;
  readonly problems: readonly { readonly line: number; readonly says: string }[];
}

/** Lines first; where all can be read, whether the bench can stand so. */
export function checkTyped(text: string): Typed {
  const { plan, problems, lineOf } = scanBenchText(text);
  if (problems.length > 0) return { plan, problems };
  const laid = layOut(plan, partLookup.shapeOf);
  return { plan, problems: laid.ok ? [] : [{ line: lineOf(laid.failure.at) ?? 1, says: laid.failure.says }] };
}

/** One change of nothing: whatever the order in which a document names its parts. */
export function same(a: Plan, b: Plan): boolean {
  const change = difference(a, b);
  return change.op === 'all' && change.changes.length === 0;
}

/** What stands on the bench, without what it holds. */
export const asWired = ({ cells: _, ...plan }: Plan): Plan => ({ ...plan, memories: {}, switches: {} });

/** The same bench with the same bytes and switches: it writes them in a way of its own, which may be typed otherwise. */
export const alike = (a: Plan, b: Plan): boolean =>
  same(asWired(a), asWired(b)) &&
  sameValue(a.cells ?? {}, b.cells ?? {}) &&
  ids(a, b).every((id) => bytesOf(a.memories[id]) === bytesOf(b.memories[id]) && polesOf(a.switches[id]) === polesOf(b.switches[id]));

const ids = (...plans: readonly Plan[]): string[] => plans.flatMap((p) => [...Object.keys(p.memories), ...Object.keys(p.switches)]);

/** Every byte that is not erased, with its address. */
const bytesOf = (rows: Plan['memories'][string] | undefined): string =>
  [...digitsByAddress(rows)]
    .filter(([, byte]) => byte !== 'FF')
    .sort(([x], [y]) => x - y)
    .join(' ');

/** The poles that are closed. */
const polesOf = (switches: Plan['switches'][string] = []): string => switches.flatMap((closed, pole) => (closed ? [pole] : [])).join(' ');

/** How a line of a thing begins, up to its id. */
const OF_A_THING = '^\\s*(?!title|note|wanted|#)\\S+\\s+';

/** The thing that a line of the text speaks of; none for words of the notation and for comments. */
export function refOfLine(line: string, plan: Plan): Ref | undefined {
  const id = new RegExp(`${OF_A_THING}([A-Za-z]\\w*)`).exec(line)?.[1] ?? '';
  if (plan.parts.some((p) => p.id === id)) return { kind: 'part', id };
  if (plan.wires.some((l) => l.id === id)) return { kind: 'wire', id };
  return plan.boards.some((b) => b.id === id) ? { kind: 'board', id } : undefined;
}

/** The line, from 0, that a thing is written in first; −1 if in none. */
export const lineOfThing = (text: string, id: string): number =>
  text.split('\n').findIndex((l) => new RegExp(`${OF_A_THING}${id}\\b`).test(l));
