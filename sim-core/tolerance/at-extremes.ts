/** What a bench keeps with its parts as printed and not with all of them at their extremes: all weak together, and all strong together. */
import type { Plan } from '../../shared/plan.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { blocksOf, type Setting, switchesAt } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { type AskedAtRest, askedAtRest } from './at-rest.ts';
import { roomOf } from './margin-query.ts';
import { specimensAt, type Tolerance, tolerancesOf } from './tolerances.ts';

/** A figure that is inside its limit as printed, and beyond it at one of the extremes. */
export interface BeyondAtExtremes extends Pick<AskedAtRest, 'what' | 'at' | 'limit'> {
  readonly nominal: number;
  readonly measured: number;
}

/** Settings of the switches beyond so many are not tried: three benches are simulated at each. */
const MOST_SETTINGS = 8;

/** At these settings, each figure once with its worst. plan: supplies on. */
export function beyondAtExtremes(plan: Plan, circuit: Circuit, settings: readonly Setting[]): readonly BeyondAtExtremes[] {
  const spreads = tolerancesOf(circuit, new Set(blocksOf(circuit, circuit.layout.legs)));
  const corners = (['weak', 'strong'] as const).map((corner) =>
    specimensAt(
      spreads,
      spreads.map((s) => valueAt(circuit, s, corner)),
    ),
  );
  const worst = new Map<string, BeyondAtExtremes & { readonly room: number }>();
  for (const setting of settings.slice(0, MOST_SETTINGS)) {
    const there = { ...plan, switches: switchesAt(plan, setting) };
    const seen = (overrides?: (typeof corners)[number]) => {
      const made = simulate(there, { bounce: false, still: true, ...(overrides ? { overrides } : {}) });
      return made.ok ? { circuit: made.value.circuit, readings: made.value.readings(), events: [] } : undefined;
    };
    const nominal = seen();
    if (!nominal) continue;
    const kept = askedAtRest(nominal).filter((q) => roomOf(q, q.read(nominal)) >= 0);
    for (const there of corners.flatMap((c) => seen(c) ?? []))
      for (const q of kept) {
        const { what, at, limit } = q;
        const measured = q.read(there);
        const room = roomOf(q, measured);
        const key = `${what} ${at.id}`;
        if (room < Math.min(0, worst.get(key)?.room ?? 0)) worst.set(key, { what, at, limit, nominal: q.read(nominal), measured, room });
      }
  }
  return [...worst.values()].map(({ room: _, ...found }) => found);
}

/** weak: little voltage, much resistance, outputs as guaranteed; strong: the other end of each. */
function valueAt(circuit: Circuit, { part, figure, nominal, least, most }: Tolerance, corner: 'weak' | 'strong'): number {
  const isWeak = corner === 'weak';
  if (figure === 'drive') return isWeak ? 0 : nominal;
  if (figure === 'leakage') return isWeak ? most : nominal;
  if (circuit.placed.get(part)?.kind.group === 'supply') return isWeak ? least : most;
  return isWeak ? most : least;
}
