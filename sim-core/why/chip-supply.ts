/** Why a chip has no supply, or too little: a supply pin at the wrong rail, one that nothing reaches, or a supply that gives less than the chip needs. */
import type { Leg } from '../board/layout.ts';
import { partingWires } from '../findings/parting-wires.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { toPart, toPin, toWire } from '../findings/rule.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import type { SupplyReading } from '../run/readout/readings.ts';
import type { Reason } from './answer.ts';
import { because, type ExplanationQuestion, type ExplanationStep, explanationStep, replacedPart } from './explanation-step.ts';
import { whyOpen } from './open-circuit.ts';
import { whyTied } from './tied-pin.ts';

/** A chip whose supply is this far below its ground [V] is supplied backwards. */
export const BACKWARDS = 0.2;

/** A supply that is on and whose two terminals are one net, and the wires that make them so. */
export function shortedSupply({ scene: { circuit, readings } }: ExplanationQuestion): ExplanationStep | undefined {
  for (const { part, limiting, amps, volts } of readings.supplies) {
    const site = circuit.supplyById.get(part);
    if (!limiting || !site || circuit.netOf(site.plus) !== circuit.netOf(site.minus)) continue;
    const { wires } = partingWires(circuit, site.plus, site.minus);
    return explanationStep([
      { code: 'supply-shorted', at: [...wires.map(toWire), toPart(site.placed)], data: { amps, volts, wires: wires.length } },
    ]);
  }
  return undefined;
}

/** A supply that gives all it may, and the chip that is supplied backwards, if one is. */
function whyLimits(q: ExplanationQuestion, { part, amps, volts }: SupplyReading): ExplanationStep {
  const reversed = q.scene.circuit.chips.find((c) => wrongSupplyPin(q, c));
  const limits: Reason = { code: 'supply-limits', at: [{ kind: 'part', id: part }], data: { amps, volts } };
  return reversed ? because(limits, whySupply(q, reversed, 'chip-no-supply')) : explanationStep([limits]);
}

/** undefined: no supply gives all it may. */
export function limitingSupply(q: ExplanationQuestion): ExplanationStep | undefined {
  const limiting = q.scene.readings.supplies.find((s) => s.limiting);
  return limiting && (shortedSupply(q) ?? whyLimits(q, limiting));
}

/** what: 'chip-no-supply' or 'chip-supply-low' */
export function whySupply(q: ExplanationQuestion, chip: ChipSite, what: string): ExplanationStep {
  const { circuit } = q.scene;
  const volts = q.scene.chip(chip.placed.part.id)?.supply ?? 0;
  const at = [toPart(chip.placed), toPin(chip.supply.leg), toPin(chip.ground.leg)];
  const reason: Reason = { code: volts < -BACKWARDS ? 'supply-reversed' : what, at, data: { volts, least: chip.spec.supplyRange[0] } };
  const reach = reachOf(circuit);
  const [plus, minus] = [circuit.netOf(chip.supply.leg), circuit.netOf(chip.ground.leg)];
  const wrong = wrongSupplyPin(q, chip);
  const tied = wrong && whyTied(q, circuit.netOf(wrong), wrong, wrong === chip.ground.leg ? 'low' : 'high', { volts });
  if (tied) return because(reason, tied);
  if (!reach.plus.has(plus.index)) return because(reason, whyOpen(q, plus, 'high', 'pin'));
  if (!reach.minus.has(minus.index)) return because(reason, whyOpen(q, minus, 'low', 'pin'));
  return because(reason, whyWeakSupply(q, chip));
}

/** The supply pin of a chip that lies at the other terminal of a supply. */
function wrongSupplyPin({ scene: { circuit } }: ExplanationQuestion, { supply, ground }: ChipSite): Leg | undefined {
  const reach = reachOf(circuit);
  if (reach.plus.has(circuit.netOf(ground.leg).index)) return ground.leg;
  return reach.minus.has(circuit.netOf(supply.leg).index) ? supply.leg : undefined;
}

/** Both pins are on a supply, so it is the supply that gives too little. */
function whyWeakSupply(q: ExplanationQuestion, chip: ChipSite): ExplanationStep {
  const { circuit, readings } = q.scene;
  const net = circuit.netOf(chip.supply.leg);
  const site = circuit.supplies.find((s) => circuit.netOf(s.plus) === net);
  const reading = readings.supplies.find((s) => s.part === site?.placed.part.id);
  if (!site || !reading) return explanationStep([]);
  const { part, kind } = site.placed;
  const at = [toPart(site.placed)];
  const [least, most] = chip.spec.supplyRange;
  const { volts: set } = circuit.network.supplyOf(site.device);
  if (reading.limiting) return whyLimits(q, reading);
  if (set >= least) return explanationStep([]);
  const param = kind.params.find((p) => p.type === 'number' && p.unit === 'V');
  const usual = Number(param?.fallback);
  const right = usual >= least && usual <= most ? usual : (least + most) / 2;
  const after = { ...part, params: { ...part.params, ...(param ? { [param.name]: right } : {}) } };
  return explanationStep(
    [{ code: 'supply-set-low', at, data: { volts: set, least } }],
    param ? [replacedPart('set-value', at, { meant: `${right} V` }, part, after)] : [],
  );
}
