/** What of a bench may be damaged or does not work, at every setting of its switches: all are gone through by their voltages, and those that show something new are judged. */
import { holeName } from '../board/tie-points.ts';
import { momentFindings, wiringFindings } from '../findings/run-rules.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { isButton } from '../run/circuit/switch-settings.ts';
import { blankSignature, type SwitchPole } from '../run/variants/probe-points.ts';
import { signature } from '../run/variants/signature.ts';
import type { Variant } from '../run/variants/variant.ts';

/** Settings beyond so many are sampled. */
const MOST_SETTINGS = 2048;
/** So many are gone through between two pauses. */
const TOGETHER = 256;
/** Poles beyond so many stand as the plan says. */
const MOST_POLES = 32;
/** Voltages that differ by less count as the same [V]: our choice, far below what parts a fault from none. */
const SAME = 0.1;

/** A place of the bench whose voltage is looked at, and the net that it stands for. */
interface Probe {
  readonly net: number;
  readonly hole: string;
}

/** Damage risks and faults by key, at every setting of these poles and of all others that are no buttons. Pauses between some of them. */
export function* hazardsOf(bench: Variant, inputs: readonly SwitchPole[]): Generator<undefined, ReadonlySet<string>> {
  const { circuit } = bench;
  const found = new Set<string>();
  const note = (findings: ReturnType<typeof wiringFindings>) => {
    for (const f of findings) if (f.severity === 'damage-risk' || f.severity === 'fault') found.add(f.key);
  };
  note(wiringFindings(circuit));
  const poles = polesOf(circuit, inputs);
  const sim = bench.bench();
  note(momentFindings(sim.circuit, sim.readings()));
  for (const setting of yield* unlikeSettings(bench, poles)) {
    for (const [i, { part, pole }] of poles.entries()) sim.begin({ do: 'set', part, pole, closed: ((setting >>> i) & 1) === 1 });
    sim.rest();
    note(momentFindings(sim.circuit, sim.readings()));
    yield;
  }
  return found;
}

/** The inputs' poles first. */
function polesOf(circuit: Circuit, inputs: readonly SwitchPole[]): readonly SwitchPole[] {
  const all = circuit.contacts.filter((c) => !isButton(c)).map((c): SwitchPole => ({ part: c.placed.part.id, pole: c.pole }));
  const isThere = (p: SwitchPole) => all.some((c) => c.part === p.part && c.pole === p.pole);
  const isInput = (c: SwitchPole) => inputs.some((p) => c.part === p.part && c.pole === p.pole);
  return [...inputs.filter(isThere).map(({ part, pole }) => ({ part, pole })), ...all.filter((c) => !isInput(c))].slice(0, MOST_POLES);
}

/** Settings in which some part has a voltage across it that it has in none before, or more of a chip's outputs are high, or low, than in any before. */
function* unlikeSettings(bench: Variant, poles: readonly SwitchPole[]): Generator<undefined, readonly number[]> {
  const { circuit, plan } = bench;
  const probes = probesOf(circuit);
  const seen = new SeenVolts(circuit, probes);
  const points = { leds: [], holes: probes.map((p) => p.hole) };
  const stands = poles.reduce((mask, { part, pole }, i) => (plan.switches[part]?.[pole] ? mask | (1 << i) : mask), 0);
  const settings = settingsOf(poles.length, stands);
  const unlike: number[] = [];
  for (let from = 0; from < settings.length; from += TOGETHER) {
    const asked = { poles, rows: settings.subarray(from, from + TOGETHER) };
    const into = blankSignature(asked, points);
    signature(bench, asked, points, into);
    for (const [r, setting] of asked.rows.entries())
      if (seen.isNew(into.volts.subarray(r * probes.length, (r + 1) * probes.length))) unlike.push(setting);
    yield;
  }
  return unlike;
}

/** All, or where there are more a sample of them, spread evenly, and each pole by itself. */
function settingsOf(poles: number, stands: number): Uint32Array {
  if (2 ** poles <= MOST_SETTINGS) return Uint32Array.from({ length: 2 ** poles }, (_, k) => k ^ (k >> 1));
  const alone = Array.from({ length: poles }, (_, i) => (stands ^ (1 << i)) >>> 0);
  const extremes = [0, 2 ** poles - 1];
  const spread = Array.from({ length: MOST_SETTINGS - poles - extremes.length }, (_, k) => Math.imul(k + 1, SPREAD) >>> (32 - poles));
  return Uint32Array.from([...alone, ...extremes, ...spread]);
}

/** 2³² over the golden ratio: its multiples fill any range evenly. */
const SPREAD = 0x9e3779b1;

function probesOf(circuit: Circuit): readonly Probe[] {
  const seen = new Set<number>();
  return circuit.layout.legs.flatMap((leg): Probe[] => {
    const net = circuit.netOf(leg).index;
    if (seen.has(net)) return [];
    seen.add(net);
    return [{ net, hole: leg.hole ? holeName(leg.hole, circuit.plan.boards) : leg.strip }];
  });
}

/** Steps of voltage that were there before: on each net, across each branch, and how many outputs of a chip were high, or low, together. */
class SeenVolts {
  private readonly pairs: readonly (readonly [a: number, b: number, steps: Set<number>])[];
  private readonly chips: readonly { readonly outputs: readonly number[]; readonly most: [high: number, low: number] }[];

  constructor(circuit: Circuit, probes: readonly Probe[]) {
    const places = new Map(probes.map((p, i) => [p.net, i]));
    const at = (leg: Parameters<Circuit['netOf']>[0]) => places.get(circuit.netOf(leg).index) ?? -1;
    const across = circuit.branches.flatMap(({ legs: [a, b] }) => (a && b ? [[at(a), at(b)] as const] : []));
    const own = [...probes.keys()].map((i) => [i, -1] as const);
    this.pairs = [...own, ...across].map(([a, b]) => [a, b, new Set<number>()]);
    this.chips = circuit.chips.map(({ outputs }) => ({ outputs: outputs.map((o) => at(o.leg)), most: [0, 0] }));
  }

  isNew(volts: Float64Array): boolean {
    let isNew = false;
    for (const [a, b, steps] of this.pairs) {
      const step = Math.round(((volts[a] ?? 0) - (b < 0 ? 0 : (volts[b] ?? 0))) / SAME);
      if (steps.has(step)) continue;
      steps.add(step);
      isNew = true;
    }
    for (const { outputs, most } of this.chips) {
      const high = outputs.filter((o) => (volts[o] ?? 0) > HIGH).length;
      const low = outputs.filter((o) => (volts[o] ?? 0) <= HIGH).length;
      if (high > most[0] || low > most[1]) isNew = true;
      most[0] = Math.max(most[0], high);
      most[1] = Math.max(most[1], low);
    }
    return isNew;
  }
}

/** An output above this gives current, below it takes some [V]; our choice, between the levels of all families here. */
const HIGH = 2;
