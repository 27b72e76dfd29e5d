/** How well a planted mistake is told: what why names, what findings and proof say, and what an offered fix does to every row. */
import type { Plan } from '../../shared/plan.ts';
import { stripAt } from '../../sim-core/board/tie-points.ts';
import { bytesOfRows } from '../../sim-core/document/memory-rows.ts';
import { atRow, shownDifferences } from '../../sim-core/faults/shown-rows.ts';
import {
  apply,
  asMeant,
  type Change,
  dryRun,
  type Finding,
  ledsOfOutput,
  proveTable,
  type Ref,
  RULES,
  simulate,
  type WhyAnswer,
  whyLed,
} from '../../sim-core/index.ts';
import { buildCircuit, type Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { whyLedInTurns } from '../../sim-core/why/why-led.ts';
import { isFree, type MeantBench, type Planted, shownBy } from './planted-fault.ts';

/** How near a list of references comes to the thing that a hand must touch. */
export type Hit = 'first' | 'anywhere' | 'place' | 'not';

export interface Score {
  readonly kind: string;
  /** with the table and names only, and with the plan as meant */
  readonly why: Hit | 'not asked';
  readonly whyMeant: Hit | 'not asked';
  readonly findings: Hit;
  /** a finding beyond those of the healthy bench, or a proof that is not right */
  readonly said: boolean;
  readonly fix: 'none' | 'right' | 'better' | 'worse';
  readonly danger: boolean;
  /** why says that the table wants what it does not want */
  readonly falseAsSpecified: boolean;
  /** from the plan to the chain of causes [ms] */
  readonly time: number;
  readonly about: string;
}

const key = (ref: Ref) => `${ref.kind} ${ref.id}`;

/** The part that a reference to one of its LEDs means. */
const ofLed = (ref: Ref): Ref => (ref.kind === 'led' ? { kind: 'part', id: ref.id.split('.')[0]! } : ref);

/** Pieces of metal that a reference is in. */
function stripsOf(circuit: Circuit, { kind, id }: Ref): readonly string[] {
  const { legs, ends } = circuit.layout;
  if (kind === 'pin') return legs.filter((l) => `${l.part.id}.${l.pin}` === id).map((l) => l.strip);
  if (kind === 'wire') return ends.filter((e) => e.wire.id === id).map((e) => e.strip);
  return kind === 'point' ? [stripAt(id, circuit.plan.boards)] : [];
}

/** Reasons that say that something is missing between two places. */
const MISSING = new Set(['wire-missing', 'part-missing', 'pull-missing', 'rail-not-connected']);

/** Does this reason say that something is missing between the very nets which the thing that is gone joined? What is gone has no name to be called by. */
function saysGone({ fault, bench, plan }: Planted, { code, at }: WhyAnswer['reasons'][number]): boolean {
  const [thing] = fault.things;
  const isGone = (list: 'parts' | 'wires') =>
    bench.plan[list].some((t) => t.id === thing?.id) && !plan[list].some((t) => t.id === thing?.id);
  const circuit = buildCircuit(plan);
  if (!thing || !(isGone('parts') || isGone('wires')) || !circuit.ok || !MISSING.has(code)) return false;
  const { legs, ends } = bench.faults.circuit.layout;
  const joined = [...legs.filter((l) => l.part.id === thing.id), ...ends.filter((e) => e.wire.id === thing.id)].map((e) => e.strip);
  const netsOf = (strips: readonly string[]) => new Set(strips.map((s) => circuit.value.nets.ofStrip.get(s)?.index ?? s));
  const said = netsOf(at.flatMap((ref) => stripsOf(circuit.value, ref)));
  return [...netsOf(joined)].every((net) => said.has(net));
}

/** Addresses at which the planted image differs from the meant one, by memory. */
function wrongBytes({ bench, plan }: Planted): ReadonlyMap<string, ReadonlySet<number>> {
  const wrong = new Map<string, Set<number>>();
  for (const id of new Set([...Object.keys(bench.plan.memories), ...Object.keys(plan.memories)])) {
    const [was, is] = [bench.plan.memories[id], plan.memories[id]].map((rows) => bytesOfRows(rows, 65_536));
    const at = [...is!.keys()].filter((a) => is![a] !== was![a]);
    if (at.length > 0) wrong.set(id, new Set(at));
  }
  return wrong;
}

/** How near these come; `first` is what the answer ends at. */
function hitOf(planted: Planted, first: readonly Ref[], all: readonly Ref[]): Hit {
  const things = new Set(planted.fault.things.map(key));
  const isThing = (ref: Ref) => things.has(key(ref)) || things.has(key(ofLed(ref)));
  if (first[0] && isThing(first[0])) return 'first';
  if (all.some(isThing)) return 'anywhere';
  const circuit = buildCircuit(planted.plan);
  const strips = (refs: readonly Ref[]) => (circuit.ok ? refs.flatMap((r) => stripsOf(circuit.value, r)) : []);
  const meant = planted.bench.faults.circuit;
  const where = new Set([...planted.fault.places.flatMap((r) => stripsOf(meant, r)), ...strips(planted.fault.places)]);
  const places = new Set(planted.fault.places.map(key));
  const owns = (ref: Ref) => ref.kind === 'pin' && things.has(`part ${ref.id.split('.')[0]}`);
  return all.some((r) => places.has(key(r)) || owns(r) || strips([r]).some((s) => where.has(s))) ? 'place' : 'not';
}

function scoreWhy(planted: Planted, answer: WhyAnswer): Hit {
  const { reasons } = answer;
  const last = reasons.at(-1);
  const wrong = wrongBytes(planted);
  if (wrong.size > 0) {
    // the memory is in every chain: what counts is that its byte is called wrong
    const names = (r: WhyAnswer['reasons'][number]) =>
      r.data.wants !== undefined && r.at.some((ref) => wrong.get(ref.id)?.has(Number(r.data.address)) === true);
    if (last && names(last)) return 'first';
    if ([...reasons, ...(answer.instead ?? [])].some(names)) return 'anywhere';
    return reasons.some((r) => r.at.some((ref) => wrong.has(ref.id))) ? 'place' : 'not';
  }
  const all = [...reasons, ...(answer.instead ?? [])];
  const hit = hitOf(
    planted,
    last?.at ?? [],
    all.flatMap((r) => r.at),
  );
  if (hit === 'first' || (last && saysGone(planted, last))) return 'first';
  return all.some((r) => saysGone(planted, r)) ? 'anywhere' : hit;
}

/** Of what the memories hold, and of the table, its rows tell. */
const OF_BYTES = new Set(RULES.filter((r) => r.reads === 'stored' || r.reads === 'table').map((r) => r.code));
const isBad = (f: Finding) => (f.severity === 'damage-risk' || f.severity === 'fault') && !OF_BYTES.has(f.code);

const findingsOf = (plan: Plan): readonly Finding[] => {
  const found = dryRun(plan);
  return found.ok ? found.value.filter((f) => f.severity !== 'suggestion') : [];
};

/** Dark LEDs of the table on a healthy bench, at some of its rows, that why does not lead to the table; and how many were asked. */
export function healthyDark(bench: MeantBench, rows: readonly number[]): { readonly asked: number; readonly lost: readonly string[] } {
  const { plan, inputs, shown } = bench;
  const leds = (plan.wanted?.outputs ?? []).flatMap((o) => ledsOfOutput(plan, o));
  let count = 0;
  const lost: string[] = [];
  for (const row of rows)
    for (const led of leds) {
      if (shown.get(led)?.[row] !== 0) continue;
      count += 1;
      const answer = asked(atRow(plan, inputs, row), led);
      if (!answer.reasons.some((r) => r.code === 'as-wanted')) lost.push(`${bench.name} row ${row} ${led}`);
    }
  return { asked: count, lost };
}

export const faultsOfHealthy = ({ plan }: MeantBench): readonly string[] =>
  findingsOf(plan)
    .filter(isBad)
    .map((f) => f.code);

const healthy = new Map<MeantBench, ReadonlySet<string>>();

/** Keys of what is said of the healthy bench. */
function saidBefore(bench: MeantBench): ReadonlySet<string> {
  const keys = healthy.get(bench) ?? new Set(findingsOf(bench.plan).map((f) => f.key));
  healthy.set(bench, keys);
  return keys;
}

/** What an offered change does: to the rows, and by findings that were not there before. */
function scoreFix(
  { bench, plan }: Pick<Planted, 'bench' | 'plan'>,
  change: Change,
  before: readonly Finding[],
): Pick<Score, 'fix' | 'danger'> {
  const after = apply(plan, change);
  const [wrong, left] = [plan, after].map((p) => shownDifferences(bench.shown, shownBy(p, bench.inputs)).filter((d) => !isFree(bench, d)));
  const place = ({ led, row }: { led: string; row: number }) => `${led} ${row}`;
  const were = new Set(wrong!.map(place));
  const known = new Set([...before.filter(isBad).map((f) => f.key), ...saidBefore(bench)]);
  const danger = findingsOf(after).some((f) => isBad(f) && !known.has(f.key));
  const fix = left!.length === 0 ? 'right' : left!.every((d) => were.has(place(d))) ? 'better' : 'worse';
  return { fix, danger };
}

export function scored(planted: Planted): Score {
  const { bench, fault, plan, row, led } = planted;
  const found = findingsOf(plan);
  const before = saidBefore(bench);
  const own = found.filter((f) => !before.has(f.key));
  const proof = proveTable(plan);
  const said = own.length > 0 || !proof.ok || proof.value.right < proof.value.rows || (proof.value.off?.length ?? 0) > 0;
  const findings = hitOf(
    planted,
    own[0]?.at ?? [],
    own.flatMap((f) => f.at),
  );
  const about = `${fault.id} on ${bench.name}, row ${row}, ${led ?? 'LED gone'}`;
  const rest = { kind: fault.kind, findings, said, about } as const;
  if (led === undefined)
    return { ...rest, why: 'not asked', whyMeant: 'not asked', fix: 'none', danger: false, falseAsSpecified: false, time: 0 };
  const time = chainTime(plan, led);
  const answer = asked(plan, led);
  const known = asked({ ...plan, meant: asMeant(bench.plan).meant }, led);
  const fixed = answer.proof ? scoreFix(planted, answer.proof.change, found) : ({ fix: 'none', danger: false } as const);
  const falseAsSpecified = [answer, known].some((a) => a.reasons.some((r) => r.code === 'as-wanted'));
  return { ...rest, why: scoreWhy(planted, answer), whyMeant: scoreWhy(planted, known), ...fixed, falseAsSpecified, time };
}

/** From the plan to the chain of causes [ms]; fixes are looked for after that. */
function chainTime(plan: Plan, led: string): number {
  const begun = performance.now();
  const made = simulate(plan, { still: true, bounce: false });
  if (!made.ok) throw new Error(made.failure.says);
  whyLedInTurns(made.value, led).next();
  return performance.now() - begun;
}

function asked(plan: Plan, led: string): WhyAnswer {
  const made = simulate(plan, { still: true, bounce: false });
  if (!made.ok) throw new Error(made.failure.says);
  return whyLed(made.value, led);
}
