/** Why a lamp is as it is: from what is seen, back along false links only, to something a hand can touch; then the proof. */
import type { Net } from '../bench/nets.ts';
import { reversed } from '../findings/lamp/reversed.ts';
import { METAL, nearest, reachOf } from '../findings/reach.ts';
import { toLamp, toPart, toPin } from '../findings/refs.ts';
import { makeScene } from '../findings/scene.ts';
import type { LampSite } from '../run/circuit.ts';
import type { Simulation } from '../run/face.ts';
import { type Account, account, type Mend, type Question, type Side } from './account.ts';
import type { WhyAnswer } from './answer.ts';
import { whatLimits, whyWeak } from './current.ts';
import { freeHole, isRail, stripBeside } from './holes.ts';
import { whyOpen } from './open.ts';
import { whatOutputGives, whyOutput } from './output.ts';
import { contactsTo, setPole } from './pin.ts';
import { prove } from './prove.ts';

/** A side of a lamp that is this near to where it should be [V] is not what keeps it dark. */
const NEAR_ENOUGH = 1.2;
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
  const dead = damagedLamp(q, lamp);
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

/** A damaged part has no lamp any more, but a person may still ask about it. */
function damagedLamp(q: Question, lamp: string): WhyAnswer | undefined {
  const part = q.scene.circuit.plan.parts.find((p) => p.id === lamp.split('.')[0]);
  const damage = part?.damaged;
  if (!part || !damage) return undefined;
  const { damaged: _, ...after } = part;
  const at = [{ kind: 'part', id: part.id }] as const;
  const mend: Mend = { code: 'replace', at, data: {}, change: { op: 'replace-part', before: part, after } };
  const proof = prove(q, lamp, [mend]);
  return { lamp, glow: 'dark', amps: 0, reasons: [{ code: 'part-damaged', at, data: { ...damage } }], ...(proof ? { proof } : {}) };
}

function whyDark(q: Question, site: LampSite): Account {
  const { circuit, powered } = q.scene;
  if (!powered) return supplyOff(q);
  const [anode, cathode] = [circuit.netOf(site.anode), circuit.netOf(site.cathode)];
  if (anode === cathode) return shorted(q, site);
  if (reversed(circuit, site)) return wrongWayRound(site);
  const accounts = [whySide(q, anode, 'high'), whySide(q, cathode, 'low')].filter((a) => a.reasons.length > 0);
  return account(
    accounts.flatMap((a) => a.reasons),
    accounts.flatMap((a) => a.mends),
  );
}

/** Why this side of the lamp is not high, or not low; no reasons if it is. */
function whySide(q: Question, net: Net, side: Side): Account {
  const { scene } = q;
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const ends = side === 'high' ? reach.plus : reach.minus;
  const reached = reach.from(net.index, 'no lamps', (c) => !scene.closed(c));
  const output = nearest(reached, reach.outputs);
  const end = nearest(reached, ends);
  const volts = scene.at(net.index);
  const ideal = side === 'high' ? scene.volts : 0;
  const there = Math.abs(volts - ideal) < NEAR_ENOUGH && (end !== undefined || output !== undefined);
  if (there) return account([]);
  if (output && (!end || output.ohms <= end.ohms)) {
    for (const chip of circuit.chips)
      for (const [i, o] of chip.outputs.entries()) if (circuit.netOf(o.leg).index === output.net) return whyOutput(q, chip, i, side);
  }
  const contact = contactsTo(q, reached.keys(), ends).find((c) => !scene.closed(c));
  if (contact && !end)
    return account(
      [{ code: 'switch-open', at: [toPart(contact.placed)], data: { pole: contact.pole + 1, side } }],
      contact.contact.momentary ? [] : [setPole(q, contact, true)],
    );
  return end && end.ohms < METAL
    ? account([{ code: 'no-difference', at: [toPin(net.legs[0] ?? failing())], data: { volts, side } }])
    : whyOpen(q, net, side, 'lamp');
}

const failing = (): never => {
  throw new Error('a lamp stands on a net without legs');
};

function supplyOff(q: Question): Account {
  const { circuit } = q.scene;
  const [supply] = circuit.supplies;
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

function shorted(q: Question, site: LampSite): Account {
  const { layout } = q.scene.circuit;
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
  return account(
    [
      {
        code: 'lamp-shorted',
        at: [toLamp(site), toPin(site.anode), toPin(site.cathode)],
        data: { strip: site.anode.strip, row: isRail(site.anode.strip) ? 0 : 1 },
      },
    ],
    mends,
  );
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
