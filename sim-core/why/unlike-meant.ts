/** What of a bench is not as it is meant, thing by thing, each with the edit that puts it right: a wire gone, moved or too many, a part gone, moved, turned or of another value. */
import type { Plan, PlanBoard, PlanPart, PlanWire } from '../../shared/plan.ts';
import { stripAt } from '../board/tie-points.ts';
import { type Change, join } from '../document/changes.ts';
import { valuesApart } from '../sentence/part-values.ts';
import type { Ref } from '../sentence/wording.ts';
import type { Reason } from './answer.ts';
import type { CandidateFix } from './explanation-step.ts';

/** One difference: what is so, and what would undo it. */
export interface UnlikeMeant {
  readonly reason: Reason;
  readonly fix: CandidateFix;
}

/** Empty where nothing is said to be meant. */
export function unlikeMeant(plan: Plan): readonly UnlikeMeant[] {
  const { meant } = plan;
  if (!meant) return [];
  return [...boardsUnlike(plan, meant.boards), ...partsUnlike(plan, meant.parts), ...wiresUnlike(plan, meant.wires)];
}

const ref = (kind: Ref['kind'], id: string): Ref => ({ kind, id });
const point = (id: string): Ref => ref('point', id);

/** about: what the edit's words begin with, if that is not the first of `at` */
const unlike = (
  code: string,
  at: readonly Ref[],
  data: Reason['data'],
  fix: Pick<CandidateFix, 'code' | 'data' | 'change'>,
  about?: Ref,
): UnlikeMeant => ({ reason: { code, at, data }, fix: { ...fix, at: about ? [about] : at } });

function boardsUnlike({ boards }: Plan, meant: readonly PlanBoard[]): UnlikeMeant[] {
  return meant.flatMap((board) => {
    const before = boards.find((b) => b.id === board.id);
    if (!before || before.splitRails === board.splitRails) return [];
    const split = before.splitRails ? 1 : 0;
    const change: Change = { op: 'replace', list: 'boards', before, after: { ...before, splitRails: board.splitRails } };
    return [unlike('meant-rails', [ref('board', board.id)], { split }, { code: 'change-rails', data: { split }, change })];
  });
}

function partsUnlike(plan: Plan, meant: readonly PlanPart[]): UnlikeMeant[] {
  const ids = new Set(meant.map((p) => p.id));
  const tooMany = plan.parts.flatMap((item, index) => {
    if (ids.has(item.id)) return [];
    const change: Change = { op: 'remove', list: 'parts', item, index };
    return [unlike('meant-without', [ref('part', item.id)], {}, { code: 'remove-part', data: {}, change })];
  });
  return [...meant.flatMap((part) => partUnlike(plan, part)), ...tooMany];
}

function partUnlike(plan: Plan, meant: PlanPart): UnlikeMeant[] {
  const at = [ref('part', meant.id)];
  const before = plan.parts.find((p) => p.id === meant.id);
  if (!before) {
    const places = [meant.at, meant.to].flatMap((hole) => hole ?? []);
    const change: Change = { op: 'insert', list: 'parts', item: meant, index: plan.parts.length };
    const data = { from: places[0] ?? '', to: places[1] ?? '' };
    return [unlike('meant-part', [...at, ...places.map(point)], data, { code: 'put-back', data, change })];
  }
  const { damaged: _, label: __, poleNames: ___, ...bare } = meant;
  const { at: ____, to: _____, rotated: ______, params: _______, ...kept } = before;
  const change: Change = { op: 'replace', list: 'parts', before, after: { ...kept, ...bare, ...labelsOf(before) } };
  if (before.kind !== meant.kind) return [unlike('meant-kind', at, { kind: meant.kind }, { code: 'replace', data: {}, change })];
  const places = placesUnlike(plan, before, meant);
  if (places)
    return [unlike(places.code, [...at, ...places.at], places.data, { code: places.act, data: places.data, change }, places.at[0])];
  if ((before.rotated ?? false) !== (meant.rotated ?? false))
    return [unlike('meant-turned', at, {}, { code: 'turn-part', data: {}, change })];
  const apart = valuesApart(before, meant);
  const values = apart && { is: apart.is, meant: apart.other };
  return values ? [unlike('meant-value', at, values, { code: 'set-value', data: values, change })] : [];
}

const labelsOf = ({ label, poleNames }: PlanPart) => ({ ...(label === undefined ? {} : { label }), ...(poleNames ? { poleNames } : {}) });

interface PlaceUnlike {
  readonly code: string;
  readonly act: string;
  readonly at: readonly Ref[];
  readonly data: Reason['data'];
}

/** Legs in other strips than is meant: a part end for end, one of its two legs, or the whole part. */
function placesUnlike(plan: Plan, is: PlanPart, meant: PlanPart): PlaceUnlike | undefined {
  const same = (a: string | undefined, b: string | undefined) => a === b || (a !== undefined && b !== undefined && sameMetal(plan, a, b));
  const [first, second] = [same(is.at, meant.at), same(is.to, meant.to)];
  if (first && second) return undefined;
  const turned = Boolean(is.rotated) !== Boolean(meant.rotated);
  if (meant.to === undefined)
    return turned
      ? { code: 'meant-turned', act: 'turn-part', at: [], data: { hole: meant.at ?? '' } }
      : { code: 'meant-place', act: 'move-part', at: [], data: { is: is.at ?? '', hole: meant.at ?? '' } };
  if (same(is.at, meant.to) && same(is.to, meant.at)) return { code: 'meant-reversed', act: 'reverse-led', at: [], data: {} };
  if (first !== second) {
    const [pin, from, hole] = first ? ['2', is.to, meant.to] : ['1', is.at, meant.at];
    const data = { is: from ?? '', hole: hole ?? '' };
    return { code: 'meant-leg', act: 'move-leg', at: [ref('pin', `${is.id}.${pin}`)], data };
  }
  return { code: 'meant-place', act: 'move-part', at: [], data: { is: is.at ?? '', hole: meant.at ?? '' } };
}

function wiresUnlike(plan: Plan, meant: readonly PlanWire[]): UnlikeMeant[] {
  const joins = (w: PlanWire, v: PlanWire) =>
    (sameMetal(plan, w.from, v.from) && sameMetal(plan, w.to, v.to)) || (sameMetal(plan, w.from, v.to) && sameMetal(plan, w.to, v.from));
  // a wire drawn again between the same metal is the same wire, whatever its name
  const gone = meant.filter((m) => !plan.wires.some((w) => joins(w, m)));
  const over = plan.wires.filter((w) => !meant.some((m) => joins(w, m)));
  const left = new Set(over);
  const missing = gone.map((m) => {
    const moved =
      over.find((w) => left.has(w) && w.id === m.id) ??
      over.find((w) => left.has(w) && shared(plan, w, m) !== undefined) ??
      // it lies beside another that joins the same
      plan.wires.find((w) => w.id === m.id && plan.wires.some((v) => v !== w && joins(v, w)));
    if (!moved) return wireGone(plan, m);
    left.delete(moved);
    return wireMoved(plan, moved, m);
  });
  const tooMany = [...left].map((item) => {
    const change: Change = { op: 'remove', list: 'wires', item, index: plan.wires.indexOf(item) };
    return unlike('meant-without', [ref('wire', item.id)], {}, { code: 'remove-wire', data: {}, change });
  });
  return [...missing, ...tooMany];
}

function wireGone(plan: Plan, m: PlanWire): UnlikeMeant {
  const taken = plan.wires.some((w) => w.id === m.id) || plan.parts.some((p) => p.id === m.id);
  const item = taken ? { ...m, id: freeId(plan, m.id) } : m;
  const data = { from: m.from, to: m.to };
  const change: Change = { op: 'insert', list: 'wires', item, index: plan.wires.length };
  return unlike('meant-wire', [ref('wire', m.id), point(m.from), point(m.to)], data, { code: 'add-wire', data, change });
}

const freeId = ({ wires, parts }: Plan, id: string): string => {
  let n = 2;
  while ([...wires, ...parts].some((t) => t.id === `${id.slice(0, 12)}_${n}`)) n++;
  return `${id.slice(0, 12)}_${n}`;
};

function wireMoved(plan: Plan, is: PlanWire, m: PlanWire): UnlikeMeant {
  const same = shared(plan, is, m);
  const [end, hole]: readonly ['from' | 'to', string] = same ? [same.other, same.hole] : ['from', m.from];
  const after = same ? { ...is, [end]: hole } : { ...is, from: m.from, to: m.to };
  const data = { is: is[end], from: is[end], hole };
  const change: Change = { op: 'replace', list: 'wires', before: is, after };
  return unlike('meant-end', [ref('wire', is.id), point(is[end]), point(hole)], data, { code: 'move-end', data, change });
}

/** The end that is not where it is meant while the other is, and where it is meant. */
function shared(plan: Plan, is: PlanWire, m: PlanWire): { readonly other: 'from' | 'to'; readonly hole: string } | undefined {
  if (sameMetal(plan, is.from, m.from)) return { other: 'to', hole: m.to };
  if (sameMetal(plan, is.to, m.to)) return { other: 'from', hole: m.from };
  if (sameMetal(plan, is.from, m.to)) return { other: 'to', hole: m.from };
  return sameMetal(plan, is.to, m.from) ? { other: 'from', hole: m.to } : undefined;
}

const sameMetal = ({ boards }: Plan, a: string, b: string): boolean => stripAt(a, boards) === stripAt(b, boards);

/** Several of them at once. */
export const undoAll = (unlikes: readonly UnlikeMeant[]): CandidateFix => {
  const [only] = unlikes;
  if (only && unlikes.length === 1) return only.fix;
  return {
    code: 'all-as-meant',
    at: unlikes.flatMap(({ fix }) => fix.at.slice(0, 1)),
    data: {},
    change: join(...unlikes.map(({ fix }) => fix.change)),
  };
};
