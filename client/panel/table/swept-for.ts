/** What the rows were gone through for: they are gone through again when any of it has changed, which the inputs' own switches and wanted cells have no part in. */

import type { Plan } from '../../../shared/plan.ts';
import { sameValue } from '../../../shared/same-value.ts';
import type { Readings, SwitchedInput } from '../../../sim-core/index.ts';

export interface SweptFor {
  /** switches that are closed */
  readonly closed: readonly string[];
  /** all else */
  readonly bench: readonly unknown[];
}

const nameOf = ({ part, pole }: { readonly part: string; readonly pole: number }) => `${part}.${pole}`;

export function sweptForOf({ boards, parts, wires, memories, cells = {}, wanted, wiring, outputs }: Plan, readings: Readings): SweptFor {
  const supplies = new Set(readings.supplies.map((s) => nameOf({ part: s.part, pole: 0 })));
  const closed = Object.entries(readings.switches)
    .flatMap(([part, poles]) => poles.flatMap((is, pole) => (is ? nameOf({ part, pole }) : [])))
    .filter((name) => !supplies.has(name));
  const doubts = Object.entries(cells).flatMap(([id, { uncertain, charge }]) => (uncertain || charge ? [[id, uncertain, charge]] : []));
  const lines = [wanted?.inputs, wanted?.outputs.map((o) => [o.name, o.led])];
  return { closed, bench: [boards, parts, wires, memories, doubts, lines, wiring, outputs] };
}

/** own: what sets the inputs. */
export function isSweptFor(before: SweptFor, now: SweptFor, own: readonly SwitchedInput[]): boolean {
  const names = new Set(own.map(nameOf));
  const others = ({ closed }: SweptFor) => closed.filter((name) => !names.has(name)).join();
  return others(before) === others(now) && sameValue(before.bench, now.bench);
}
