/** A text by which circuits are told apart: two plans that have the same one have the same parts, figures, bytes and switch positions on the same nets. */
import { done, type Outcome } from '../../../shared/outcome.ts';
import type { Plan, PlanMeter } from '../../../shared/plan.ts';
import { type Layout, type Leg, layOut } from '../../board/layout.ts';
import { findNets, type Nets } from '../../board/nets.ts';
import { stripAt } from '../../board/tie-points.ts';
import { digitsByAddress } from '../../document/memory-rows.ts';
import { partKind } from '../../parts/catalogue.ts';
import { shapeOf } from '../../parts/footprint-index.ts';
import { type Params, type PartKind, readParams, type Wiring } from '../../parts/part.ts';
import { sha256 } from '../../units/sha-256.ts';
import { compareTexts } from '../../units/text-list.ts';

type Rows = Plan['memories'][string];

/**
 * Equal for equal circuits: a wire that ends in another hole of its net, a resistor turned round, a capacitor moved along its rails. Different wherever an LED,
 * a level or a figure can differ. Nets are called by the legs on them, so that holes count only where wires and rails have resistance.
 * Fails with `plan/…` if something cannot be where the plan says.
 */
export function circuitKey(plan: Plan): Outcome<string> {
  const layout = layOut(plan, shapeOf);
  if (!layout.ok) return layout;
  const nets = findNets(layout.value);
  const numbers = numberNets(layout.value, nets);
  const parts = [...partsOf(layout.value)].sort(([a], [b]) => compareTexts(a, b));
  const lines = parts.map(([id, { kind, params, legs, damaged }]) => {
    const at = legs.map((leg) => numbers.get(leg.strip) ?? -1);
    if (isEitherWayRound(kind)) at.sort((a, b) => a - b);
    return [
      id,
      kind.id,
      JSON.stringify(params),
      JSON.stringify(damaged ?? ''),
      at.join(),
      positions(plan.switches[id]),
      bytesOf(plan, id),
    ].join(' ');
  });
  return done([plan.outputs ?? '', ...lines, ...plan.meters.map((m) => loadOf(m, plan, numbers)).sort(), ...metalOf(plan)].join('\n'));
}

interface Standing {
  readonly kind: PartKind;
  readonly params: Params;
  readonly damaged: Plan['parts'][number]['damaged'];
  readonly legs: Leg[];
}

function partsOf({ plan, legs }: Layout): Map<string, Standing> {
  const found = new Map<string, Standing>();
  for (const part of plan.parts) {
    const kind = partKind(part.kind);
    const params = kind && readParams(kind, part);
    if (!kind || !params?.ok) throw new Error(`${part.id} was laid out without a shape`);
    found.set(part.id, { kind, params: params.value, damaged: part.damaged, legs: [] });
  }
  for (const leg of legs) found.get(leg.part.id)?.legs.push(leg);
  return found;
}

/** Strip → the number of its net, in the order of the legs on them; nets that no leg touches have none. */
function numberNets({ plan }: Layout, { all }: Nets): Map<string, number> {
  const eitherWay = new Set(plan.parts.filter((p) => isEitherWayRound(partKind(p.kind))).map((p) => p.id));
  const nameOf = ({ part, pin }: Leg) => (eitherWay.has(part.id) ? part.id : `${part.id}.${pin}`);
  const named = all.flatMap((net) => (net.legs.length > 0 ? [{ net, name: net.legs.map(nameOf).sort(compareTexts).join() }] : []));
  named.sort((a, b) => compareTexts(a.name, b.name));
  return new Map(named.flatMap(({ net }, number) => net.strips.map((strip) => [strip, number] as const)));
}

const turnable = new WeakMap<PartKind, boolean>();

/** Two legs, and nothing between them that knows one from the other. */
function isEitherWayRound(kind: PartKind | undefined): boolean {
  if (kind?.group !== 'passive') return false;
  let answer = turnable.get(kind);
  if (answer === undefined) {
    const fallbacks: Params = Object.fromEntries(kind.params.map((p) => [p.name, p.fallback]));
    answer = kind.polar === undefined && kind.pins(fallbacks).length === 2 && isSymmetric(kind, fallbacks);
    turnable.set(kind, answer);
  }
  return answer;
}

function isSymmetric(kind: PartKind, params: Params): boolean {
  let symmetric = true;
  const other = () => {
    symmetric = false;
  };
  const wiring: Wiring = {
    conductor: () => {},
    capacitor: () => {},
    junction: other,
    contact: other,
    supply: other,
    coil: other,
    transistor: other,
    chip: other,
  };
  kind.connect(wiring, params);
  return symmetric;
}

/** Poles that are not named are open. */
const positions = (poles: readonly boolean[] = []): string =>
  poles
    .map((closed) => (closed ? '1' : '0'))
    .join('')
    .replace(/0+$/, '');

function bytesOf({ memories, cells = {} }: Plan, id: string): string {
  const rows = memories[id];
  return `${rows ? digestOf(rows) : ''} ${cells[id] ? JSON.stringify(cells[id]) : ''}`;
}

const digests = new WeakMap<Rows, string>();

/** Of bytes by address, however they are divided into rows. */
function digestOf(rows: Rows): string {
  let known = digests.get(rows);
  if (known === undefined) {
    const bytes = [...digitsByAddress(rows)].sort(([a], [b]) => a - b);
    known =
      bytes.length === 0
        ? ''
        : sha256(bytes.map(([address, digits], i) => (bytes[i - 1]?.[0] === address - 1 ? digits : ` ${address} ${digits}`)).join(''));
    digests.set(rows, known);
  }
  return known;
}

/** A meter loads what it touches, and reads it. */
function loadOf(meter: PlanMeter, plan: Plan, numbers: ReadonlyMap<string, number>): string {
  if (meter.measures === 'amps') return `${meter.id} amps ${meter.leg}`;
  const netAt = (point: string | undefined) => (point === undefined ? '' : (numbers.get(stripAt(point, plan.boards)) ?? -1));
  return `${meter.id} ${meter.measures} ${netAt(meter.at)} ${meter.measures === 'volts' ? netAt(meter.against) : ''}`;
}

/** Where wires and rails have resistance, every place counts. */
function metalOf({ wiring, boards, parts, wires }: Plan): string[] {
  if (wiring !== 'real') return [];
  const places = parts.map(({ id, at, to, rotated, spot }) => ({ id, at, to, rotated, spot }));
  const ends = wires.map(({ id, from, to }) => ({ id, from, to }));
  return [boards, places, ends].map((list) => JSON.stringify([...list].sort((a, b) => compareTexts(a.id, b.id))));
}
