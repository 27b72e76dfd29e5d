/** What may be missing at an input that nothing holds: a resistor such as its neighbours have, or a wire to something that stands alone. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { namer } from '../document/edits/ids.ts';
import { METAL, reachOf } from '../findings/resistive-reach.ts';
import { toPin } from '../findings/rule.ts';
import { resistor } from '../parts/resistor.ts';
import type { Branch, ChipSite } from '../run/circuit/sites.ts';
import { expectedPins } from './expected-address.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';
import { freeHole, freeRailHole } from './nearby-holes.ts';

/** A pull resistor and the side that it pulls to. */
interface Pull {
  readonly branch: Branch;
  readonly ohms: number;
  readonly ends: ReadonlySet<number>;
}

/** Resistors from this net to one side of a supply. */
export function pullsOn({ scene: { circuit } }: ExplanationQuestion, net: Net): readonly Pull[] {
  const { plus, minus } = reachOf(circuit);
  return circuit.branches.flatMap((branch) => {
    const { placed, device, legs } = branch;
    if (placed.kind.group !== 'passive' || device.kind !== 'conductance' || !legs.some((l) => circuit.netOf(l) === net)) return [];
    const far = legs.map((l) => circuit.netOf(l).index).find((n) => n !== net.index) ?? -1;
    const ends = plus.has(far) ? plus : minus.has(far) ? minus : undefined;
    const ohms = 1 / circuit.network.conductance(device);
    return ends && ohms >= METAL ? [{ branch, ohms, ends }] : [];
  });
}

/** The pulls of the chip's other inputs, the value that most of them have first. */
function usualPull(q: ExplanationQuestion, chip: ChipSite, net: Net): Pull | undefined {
  const others = chip.inputs.flatMap(({ leg }) => (q.scene.circuit.netOf(leg) === net ? [] : pullsOn(q, q.scene.circuit.netOf(leg))));
  const count = (p: Pull) => others.filter((o) => alike(o, p)).length;
  return [...others].sort((a, b) => count(b) - count(a))[0];
}

const alike = (a: Pull, b: Pull): boolean => a.ends === b.ends && Math.abs(a.ohms - b.ohms) < 0.01 * b.ohms;

/** The resistor that holds this input in place of one that is missing, or of another value. */
export function pullFixes(q: ExplanationQuestion, chip: ChipSite, leg: Leg): CandidateFix[] {
  const { circuit } = q.scene;
  const net = circuit.netOf(leg);
  const usual = usualPull(q, chip, net);
  if (!usual) return [];
  const [own] = pullsOn(q, net);
  if (own) {
    const { part } = own.branch.placed;
    const ohms = Math.round(usual.ohms);
    const at = [{ kind: 'part', id: part.id } as const];
    return [
      {
        code: 'change-resistor',
        at,
        data: { ohms },
        change: { op: 'replace', list: 'parts', before: part, after: { ...part, params: { ...part.params, ohms } } },
        claims: { code: 'pull-of-other-value', at: [...at, toPin(leg)], data: { ohms: own.ohms, usual: usual.ohms } },
      },
    ];
  }
  const ohms = Math.round(usual.ohms);
  const places = net.strips.flatMap((s) => freeHole(circuit.layout, s) ?? []);
  return places.slice(0, 1).flatMap((from) =>
    [...usual.ends].flatMap((n): CandidateFix[] => {
      const to = freeRailHole(circuit, n, leg.strip);
      if (!to) return [];
      const item = { id: namer(circuit.plan)('R'), kind: resistor.id, at: from, to, params: { ohms } };
      return [
        {
          code: 'add-resistor',
          at: [],
          data: { from, to, ohms },
          change: { op: 'insert', list: 'parts', item, index: circuit.plan.parts.length },
          claims: { code: 'pull-missing', at: [toPin(leg), { kind: 'point', id: from }, { kind: 'point', id: to }], data: { ohms } },
        },
      ];
    }),
  );
}

/** Most lone legs that a wire is tried to. */
const MOST = 16;

/** A wire from this net to a leg that nothing else is joined to, the pole that stands for the input and the chips' outputs first. */
export function wireFixes(q: ExplanationQuestion, net: Net, chip?: ChipSite, leg?: Leg): CandidateFix[] {
  const { circuit } = q.scene;
  const from = net.strips.flatMap((s) => freeHole(circuit.layout, s) ?? [])[0];
  if (from === undefined) return [];
  const pole = chip && expectedPins(q, chip).find((p) => p.leg === leg)?.contact;
  const outputs = circuit.chips.flatMap((c) => c.outputs.map((o) => o.leg));
  const isLone = (l: Leg) => circuit.netOf(l).legs.length === 1 && circuit.netOf(l).ends.length === 0;
  const lone = circuit.layout.legs.filter((l) => l.hole && circuit.netOf(l) !== net && isLone(l));
  const targets = [...(pole?.legs ?? []), ...lone.filter((l) => outputs.includes(l)), ...lone.filter((l) => l.part.to !== undefined)];
  return [...new Set(targets)].slice(0, MOST).flatMap((target): CandidateFix[] => {
    const to = freeHole(circuit.layout, target.strip);
    const [own] = net.legs;
    if (!to || circuit.netOf(target) === net || !own) return [];
    const item = { id: namer(circuit.plan)('W'), from, to, colour: 'green' };
    return [
      {
        code: 'add-wire',
        at: [],
        data: { from, to },
        change: { op: 'insert', list: 'wires', item, index: circuit.plan.wires.length },
        claims: { code: 'wire-missing', at: [toPin(leg ?? own), toPin(target)], data: {} },
      },
    ];
  });
}
