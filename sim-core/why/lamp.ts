/** Why a lamp is as it is: from what is seen, back along false links only, to something a hand can touch; then the proof. */
import { replacing } from '../bench/storing.ts';
import { reversed } from '../findings/lamp/reversed.ts';
import { nearest, reachOf } from '../findings/reach.ts';
import { toLamp, toLead, toPart, toPin } from '../findings/refs.ts';
import { forwardAt, makeScene } from '../findings/scene.ts';
import type { LampSite, SupplySite } from '../run/circuit.ts';
import type { Simulation } from '../run/face.ts';
import { LAMP_STEPS } from '../run/readings.ts';
import { type Account, account, type Mend, type Question } from './account.ts';
import type { WhyAnswer } from './answer.ts';
import { whatLimits, whyWeak } from './current.ts';
import { freeHole, stripBeside } from './holes.ts';
import { whatOutputGives } from './output.ts';
import { prove } from './prove.ts';
import { whySide } from './side.ts';

/** A chip whose supply is this far below its ground [V] is supplied backwards. */
const BACKWARDS = 0.2;
/** A dark lamp through which more than this flows [A] has a way for its current, only a bad one. */
const TRICKLE = 2e-6;

/**
 * lamp: 'D3' or 'DS1.a'. supposed: what the person believes to see; a false belief is refused, and the truth explained instead.
 * Throws if there is no such lamp.
 */
export function whyLamp(sim: Simulation, lamp: string, supposed?: 'dark' | 'lit'): WhyAnswer {
  const readings = sim.readings();
  const q: Question = { sim, scene: makeScene(sim.circuit, readings) };
  const site = sim.circuit.lamps.find((l) => l.id === lamp);
  const reading = readings.lamps.find((l) => l.lamp === lamp);
  const dead = site ? undefined : damagedLamp(q, lamp);
  if (dead) return dead;
  if (!site || !reading) throw new Error(`no lamp ${lamp} on this bench`);
  const { glow, amps } = reading;
  const shines = glow === 'lit' || glow === 'over';
  const refused = supposed === 'dark' && shines ? 'dark' : supposed === 'lit' && glow === 'dark' ? 'lit' : undefined;
  const { reasons, mends } =
    glow === 'dim' || (glow === 'dark' && amps > TRICKLE) ? whyWeak(q, site, amps) : shines ? whyLit(q, site) : whyDark(q, site);
  const proof = prove(q, lamp, mends);
  return { lamp, glow, amps, reasons, ...(refused ? { refused } : {}), ...(proof ? { proof } : {}) };
}

/** A damaged part has no lamp any more, or one lamp less, but a person may still ask about it. */
function damagedLamp(q: Question, lamp: string): WhyAnswer | undefined {
  const part = q.scene.circuit.plan.parts.find((p) => p.id === lamp.split('.')[0]);
  const damage = part?.damaged;
  if (!part || !damage) return undefined;
  const whole = { kind: 'part', id: part.id } as const;
  const at = damage.pins ? ([{ kind: 'lamp', id: lamp }, whole] as const) : ([whole] as const);
  const mend: Mend = { code: 'replace', at: [whole], data: {}, change: replacing(q.sim.plan(), part) };
  const proof = prove(q, lamp, [mend]);
  return {
    lamp,
    glow: 'dark',
    amps: 0,
    reasons: [{ code: 'part-damaged', at, data: { by: damage.by, measured: damage.measured, limit: damage.limit } }],
    ...(proof ? { proof } : {}),
  };
}

function whyDark(q: Question, site: LampSite): Account {
  const { circuit, powered } = q.scene;
  if (!powered || offSupply(q, site)) return supplyOff(q, offSupply(q, site));
  const [anode, cathode] = [circuit.netOf(site.anode), circuit.netOf(site.cathode)];
  if (anode === cathode) return bridged(q, site);
  const backwards = q.scene.readings.chips.find((c) => c.supply < -BACKWARDS);
  if (backwards)
    return account([{ code: 'supply-backwards', at: [{ kind: 'part', id: backwards.part }], data: { volts: backwards.supply } }]);
  if (reversed(circuit, site)) return wrongWayRound(site);
  const accounts = [whySide(q, anode, 'high', site), whySide(q, cathode, 'low', site)].filter((a) => a.reasons.length > 0);
  if (accounts.length === 0) return tooLittleVoltage(q, site);
  return account(
    accounts.flatMap((a) => a.reasons),
    accounts.flatMap((a) => a.mends),
  );
}

/** A supply that is off and whose terminals this lamp hangs on, while no other feeds it. */
function offSupply(q: Question, site: LampSite): SupplySite | undefined {
  const { circuit, readings } = q.scene;
  const reach = reachOf(circuit);
  const reached = new Set([site.anode, site.cathode].flatMap((leg) => [...reach.from(circuit.netOf(leg).index, 'no lamps').keys()]));
  const hung = circuit.supplies.filter((s) => reached.has(circuit.netOf(s.plus).index) || reached.has(circuit.netOf(s.minus).index));
  const isOn = (s: SupplySite) => readings.supplies.some((r) => r.part === s.placed.part.id && r.on);
  return hung.some(isOn) ? undefined : hung[0];
}

function supplyOff(q: Question, off: SupplySite | undefined): Account {
  const { circuit } = q.scene;
  const supply = off ?? circuit.supplies[0];
  if (!supply) return account([{ code: 'no-supply-here', at: [], data: {} }]);
  const id = supply.placed.part.id;
  const before = q.scene.readings.hands[id];
  const mend: Mend = {
    code: 'switch-on',
    at: [toPart(supply.placed)],
    data: {},
    change: { op: 'set-hands', id, before: before && [...before], after: [true] },
  };
  return account([{ code: 'supply-off', at: [toPart(supply.placed)], data: {} }], [mend]);
}

/** Both legs on one net: in one row, or joined by leads. */
function bridged(q: Question, site: LampSite): Account {
  const { layout, plan } = q.scene.circuit;
  const at = [toLamp(site), toPin(site.anode), toPin(site.cathode)];
  if (site.anode.strip !== site.cathode.strip) {
    const net = q.scene.circuit.netOf(site.anode);
    const leads = [...new Set(net.ends.map((e) => e.lead))];
    const mends = leads.map(
      (lead): Mend => ({
        code: 'take-lead',
        at: [toLead(lead.id)],
        data: {},
        change: { op: 'remove-lead', lead, index: plan.leads.indexOf(lead) },
      }),
    );
    return account([{ code: 'lamp-bridged', at, data: { leads: leads.length } }], mends);
  }
  const { part } = site.placed;
  const mends = [1, -1, 2, -2].flatMap((by): Mend[] => {
    const strip = stripBeside(site.cathode.strip, by);
    const hole = strip && freeHole(layout, strip);
    return hole
      ? [
          {
            code: 'move-leg',
            at: [toPin(site.cathode)],
            data: { hole },
            change: { op: 'replace-part', before: part, after: { ...part, to: hole } },
          },
        ]
      : [];
  });
  return account([{ code: 'lamp-shorted', at, data: { strip: site.anode.strip } }], mends);
}

/** Both sides are fed as they should be, and it is still dark. */
function tooLittleVoltage(q: Question, site: LampSite): Account {
  const reading = q.scene.lamp(site);
  return account([
    {
      code: 'too-little-voltage',
      at: [toLamp(site)],
      data: { volts: reading?.volts ?? 0, needs: forwardAt(site.junction, LAMP_STEPS.lit), supply: q.scene.volts },
    },
  ]);
}

function wrongWayRound(site: LampSite): Account {
  const { part } = site.placed;
  const at = [toLamp(site)];
  const mends: Mend[] =
    part.at === undefined || part.to === undefined
      ? []
      : [{ code: 'turn-lamp', at, data: {}, change: { op: 'replace-part', before: part, after: { ...part, at: part.to, to: part.at } } }];
  return account([{ code: 'lamp-reversed', at, data: {} }], mends);
}

function whyLit(q: Question, site: LampSite): Account {
  const { scene } = q;
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const reasons = [site.anode, site.cathode].flatMap((leg) => {
    const reached = reach.from(circuit.netOf(leg).index, 'no lamps', (c) => !scene.closed(c));
    const output = nearest(reached, reach.outputs);
    for (const chip of circuit.chips)
      for (const [i, o] of chip.outputs.entries()) {
        const pull = scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === o.leg.pin);
        if (output && circuit.netOf(o.leg).index === output.net && pull && Math.abs(pull.amps) > 0) return whatOutputGives(q, chip, i);
      }
    return [];
  });
  const limits = whatLimits(q, site);
  const first =
    reasons.length > 0
      ? reasons
      : [{ code: 'fed-by-supply', at: [toPin(site.anode)], data: { volts: scene.at(circuit.netOf(site.anode).index) } }];
  return account([...first, ...limits.reasons], limits.mends);
}
