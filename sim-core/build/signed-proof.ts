/** A signed proof in a plan: what of the bench it was made of, and whether it is still that bench. It guards against forgetting, not against forgery. */
import type { Plan, PlanCells, PlanPart, PlanProof } from '../../shared/plan.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import type { PoleAt } from '../run/switched-inputs.ts';
import { sha256 } from '../units/sha-256.ts';
import { contentsOfKind } from './kind-contents.ts';

/** What of a plan a proof depends on. */
export const PROVEN = [
  'boards',
  'parts',
  'wires',
  'memories',
  'cells',
  'wanted',
  'wiring',
  'outputs',
] as const satisfies readonly (keyof Plan)[];

/**
 * Without the things that no proof depends on: places beside the boards, wires' colours, wear, words for people, and in which order parts and wires are
 * named. A pole that is called as an input is the one that sets it, so such names belong to it. Where switches stand is not in it either: those of the inputs are moved by the proof, and how the others stood is kept beside it, so that it can
 * be said which one was thrown.
 */
function subjectOf({ boards, parts, wires, memories, cells = {}, wanted, wiring, outputs }: Pick<Plan, (typeof PROVEN)[number]>): unknown {
  const known = ({ uncertain, charge }: PlanCells) => (uncertain || charge ? { uncertain, charge } : undefined);
  return {
    boards: boards.map(({ spot: _, ...board }) => board),
    parts: byId(parts).map(({ spot: _, poleNames, ...part }) => ({ ...part, ...inputsNamed(poleNames, wanted) })),
    wires: byId(wires).map(({ from, to }) => [from, to]),
    memories,
    cells: Object.fromEntries(Object.entries(cells).map(([id, state]) => [id, known(state)])),
    wanted: wanted && { inputs: wanted.inputs, outputs: wanted.outputs, rows: wanted.rows, free: wanted.dontCare },
    wiring,
    outputs,
  };
}

/** By pole, where it has the name of an input; without one, nothing. */
function inputsNamed(names: PlanPart['poleNames'] = [], wanted: Plan['wanted']): { readonly sets?: Readonly<Record<number, string>> } {
  const inputs = new Set(wanted?.inputs.map((i) => i.name.toLowerCase()));
  const sets = [...names.entries()].map(([pole, name]) => [pole, name.toLowerCase()] as const).filter(([, name]) => inputs.has(name));
  return sets.length > 0 ? { sets: Object.fromEntries(sets) } : {};
}

const byId = <T extends { readonly id: string }>(things: readonly T[]): T[] => [...things].sort((a, b) => (a.id < b.id ? -1 : 1));

/** Names in order, so that two writings of one thing are the same text. */
const inCountingOrder = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value;

/** Tells whether a bench is still the one that was proven: 64 hexadecimal digits over wiring, parts, bytes and table. */
export const fingerprintOf = (plan: Plan): string => sha256(JSON.stringify(subjectOf(plan), inCountingOrder));

/** date: YYYY-MM-DD. by: whoever signs; may be empty. inputs: the poles that the proof has moved itself. */
export const signedProof = (
  plan: Plan,
  { date, by }: Pick<PlanProof, 'date' | 'by'>,
  inputs: readonly Pick<PoleAt, 'part' | 'pole'>[],
): PlanProof => ({
  date,
  by,
  rows: plan.wanted?.rows.length ?? 0,
  fingerprint: fingerprintOf(plan),
  switches: positionsOf(plan, inputs),
});

/** One letter a pole of every switch; supplies and buttons are not among them: a proof has the ones on and the others released. */
function positionsOf({ parts, switches }: Plan, inputs: readonly Pick<PoleAt, 'part' | 'pole'>[]): NonNullable<PlanProof['switches']> {
  const all: [id: string, poles: string][] = [];
  for (const part of parts) {
    const kind = partKind(part.kind);
    const params = kind && readParams(kind, part);
    if (!kind || !params?.ok) continue;
    const poles = contentsOfKind(kind, params.value).contacts.filter((c) => !c.contact.momentary);
    const letter = (pole: number) =>
      inputs.some((i) => i.part === part.id && i.pole === pole) ? '-' : switches[part.id]?.[pole] ? '1' : '0';
    if (poles.length > 0) all.push([part.id, poles.map((c) => letter(c.pole)).join('')]);
  }
  return Object.fromEntries(all);
}

/**
 * Poles that set no input and stand otherwise than when this was signed, each as it stood then. An older proof says nothing of them, and nothing is said of
 * a switch that is gone.
 */
export const movedSince = (
  { switches: signed = {} }: Pick<PlanProof, 'switches'>,
  { parts, switches }: Pick<Plan, 'parts' | 'switches'>,
): PoleAt[] =>
  Object.entries(signed).flatMap(([part, poles]) =>
    [...poles].flatMap((letter, pole) => {
      if (!parts.some((p) => p.id === part)) return [];
      const closed = letter === '1';
      return letter === '-' || (switches[part]?.[pole] ?? false) === closed ? [] : [{ part, pole, closed }];
    }),
  );

/** false: something has been changed, or a switch thrown, since it was signed. */
export const proofHolds = (plan: Plan): boolean =>
  plan.proof !== undefined && plan.proof.fingerprint === fingerprintOf(plan) && movedSince(plan.proof, plan).length === 0;
