/** What the checks of all stages are made from: the bench after each stage, where its supply comes in, and a measurement with its band. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWire } from '../../shared/plan.ts';
import { nameOfPole } from '../../shared/pole-names.ts';
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { type Hole, holeName, holeSpot, holesOf, isRailHole, stripOf } from '../board/tie-points.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { PartOverrides } from '../run/circuit/part-overrides.ts';
import type { ChipSite, ContactSite, Placed, SupplySite } from '../run/circuit/sites.ts';
import { isButton } from '../run/circuit/switch-settings.ts';
import type { PinWords, PoleWords } from '../text/stage-words.ts';
import { OPEN, readCheck } from './meter-reading.ts';
import type { MeterCheck } from './stage-check.ts';
import { benchAfter, STAGES, type StageName, type StageOfThing, stagesOfThings } from './stages.ts';
import { lineOf } from './wiring-order.ts';

/** What counts as joined by metal [Ω]: probes, two contacts and a wire have less. Our choice. */
const JOINED = 5;
/** Of a reading: how far a meter may be off. Common practice, no source. */
const METER_ERROR = 0.01;

/** A stage's bench and its circuit. */
interface StageBench {
  readonly plan: Plan;
  readonly circuit: Circuit;
}

type Asked = Pick<MeterCheck, 'by' | 'red' | 'black' | 'about'> & Partial<Pick<MeterCheck, 'closed'>>;

/** The wire from a supply's plus terminal, and the hole that it leads to. */
export function feederOf(
  { wires }: Plan,
  { placed: { part }, plus }: SupplySite,
): { readonly wire: PlanWire; readonly hole: string } | undefined {
  const post = `${part.id}.${plus.pin}`;
  const wire = wires.find((w) => w.from === post || w.to === post);
  return wire && { wire, hole: wire.from === post ? wire.to : wire.from };
}

export class CheckBench {
  private readonly benches = new Map<StageName, StageBench>();
  private readonly spreads = new Map<string, PartOverrides>();

  private constructor(
    readonly whole: Circuit,
    readonly stages: StageOfThing,
    /** the first one of the plan, with its voltage and the share that it may be off */
    readonly supply: SupplySite,
    /** the rail hole of the supply's plus wire, which is out while resistance is measured; the supply's minus terminal */
    readonly plus: string,
    readonly minus: string,
  ) {}

  /** undefined: nothing feeds the bench, so there is nothing to check. Fails with `plan/…`. */
  static of(plan: Plan): Outcome<CheckBench | undefined> {
    const circuit = buildCircuit({ ...plan, parts: plan.parts.map(({ damaged: _, ...p }) => p) }, 'typical');
    if (!circuit.ok) return circuit;
    const [supply] = circuit.value.supplies;
    const feeder = supply && feederOf(plan, supply);
    if (!supply || !feeder) return done(undefined);
    return done(
      new CheckBench(circuit.value, stagesOfThings(circuit.value), supply, feeder.hole, `${supply.placed.part.id}.${supply.minus.pin}`),
    );
  }

  after(stage: StageName): StageBench {
    const known = this.benches.get(stage);
    if (known) return known;
    const plan = benchAfter(this.whole.plan, this.stages, stage);
    const circuit = buildCircuit(plan, 'typical');
    if (!circuit.ok) throw new Error(`a part of a bench that is whole: ${circuit.failure.says}`);
    const made = { plan, circuit: circuit.value };
    this.benches.set(stage, made);
    return made;
  }

  before(stage: StageName): StageBench | undefined {
    const last = STAGES[STAGES.indexOf(stage) - 1];
    return last && this.after(last);
  }

  /** Nominal figures of the supply [V, share, A]. */
  get figures(): { readonly volts: number; readonly tolerance: number; readonly amps: number } {
    const { volts, tolerance, amps } = this.supply.placed.params;
    return { volts: Number(volts), tolerance: Number(tolerance ?? 0) / 100, amps: Number(amps) };
  }

  /** The rail that the strip of this leg is metal of, after this stage. */
  railOf(leg: Leg, { circuit }: StageBench): '+' | '-' | undefined {
    const net = circuit.nets.ofStrip.get(leg.strip);
    if (!net) return undefined;
    const of = (pick: (s: SupplySite) => Leg) => circuit.supplies.some((s) => circuit.netOf(pick(s)) === net);
    return of((s) => s.plus) ? '+' : of((s) => s.minus) ? '-' : undefined;
  }

  /** The free hole of a rail of this sign that is nearest to a leg; the supply's own terminal where all are taken. */
  railHoleNear(leg: Leg, sign: '+' | '-'): string {
    const { plan, layout, nets, netOf } = this.whole;
    const own = netOf(sign === '+' ? this.supply.plus : this.supply.minus);
    const [x, y] = leg.hole ? holeSpot(leg.hole) : [0, 0];
    const away = (h: Hole) => Math.hypot(holeSpot(h)[0] - x, holeSpot(h)[1] - y);
    const free = plan.boards
      .flatMap((board) => holesOf(board))
      .filter((h) => isRailHole(h) && nets.ofStrip.get(stripOf(h)) === own && !layout.taken.has(holeName(h, plan.boards)))
      .sort((a, b) => away(a) - away(b));
    return free[0] ? holeName(free[0], plan.boards) : `${this.supply.placed.part.id}.${sign}`;
  }

  netOf(leg: Leg, stage: StageName): Net | undefined {
    return this.after(stage).circuit.nets.ofStrip.get(leg.strip);
  }

  /** A leg's hole by name. */
  holeOf(leg: Leg): string {
    return leg.hole ? holeName(leg.hole, this.whole.plan.boards) : `${leg.part.id}.${leg.pin}`;
  }

  pinWords(leg: Leg): PinWords {
    const placed = this.whole.placed.get(leg.part.id);
    const name = placed?.kind.pins(placed.params).find((p) => p.pin === leg.pin)?.name ?? leg.pin;
    return { part: leg.part.id, pin: leg.pin, name };
  }

  poleWords(contact: ContactSite): PoleWords {
    const { part } = contact.placed;
    const poles = this.whole.contactsById.get(part.id)?.length ?? 1;
    const called = nameOfPole(part, contact.pole) ?? lineOf(this.whole, contact.legs) ?? part.label;
    return { part: part.id, pole: contact.pole, poles, button: isButton(contact), ...(called === undefined ? {} : { called }) };
  }

  /** The chips that are fitted last, supplies of their own or not; no relays. */
  get chips(): readonly ChipSite[] {
    return this.whole.chips.filter((c) => c.contacts.length === 0);
  }

  /** What a meter shows, and the band of it; undefined where the probes find no hole. */
  reading(stage: StageName, asked: Asked): MeterCheck | undefined {
    const check: MeterCheck = { stage, closed: [], ...asked };
    const { plan } = this.after(stage);
    const at = (overrides?: PartOverrides): number => {
      const reading = readCheck(plan, check, overrides);
      return reading.ok && typeof reading.value === 'number' ? reading.value : Number.NaN;
    };
    const expects = at();
    if (Number.isNaN(expects)) return undefined;
    if (expects === Number.POSITIVE_INFINITY) return { ...check, least: OPEN / 10 };
    if (asked.by === 'volts') {
      const { tolerance } = this.figures;
      return { ...check, expects, ...around(expects * (1 - tolerance), expects * (1 + tolerance)) };
    }
    if (expects < JOINED && asked.by === 'ohms') return { ...check, expects, most: JOINED };
    return { ...check, expects, ...around(at(this.specimens(-1)), at(this.specimens(1))) };
  }

  /** Capacitance between two places, where these capacitors are to be. */
  farads(stage: StageName, parts: readonly Placed[], asked: Pick<MeterCheck, 'red' | 'black' | 'about'>): MeterCheck[] {
    const check: MeterCheck = { by: 'farads', stage, closed: [], ...asked };
    const reading = readCheck(this.after(stage).plan, check);
    if (!reading.ok || typeof reading.value !== 'number' || reading.value === 0) return [];
    const spread = parts.reduce((sum, { params }) => sum + (Number(params.farads) * Number(params.tolerance ?? 0)) / 100, 0);
    return [{ ...check, expects: reading.value, ...around(reading.value - spread, reading.value + spread) }];
  }

  /** Every resistor at one end of its tolerance. */
  private specimens(way: 1 | -1): PartOverrides {
    const known = this.spreads.get(String(way));
    if (known) return known;
    const made: PartOverrides = new Map(
      [...this.whole.placed.values()].flatMap(({ part, kind, params }) =>
        kind.spread?.of === 'ohms'
          ? [[part.id, { params: { ohms: Number(params.ohms) * (1 + (way * Number(params.tolerance)) / 100) } }] as const]
          : [],
      ),
    );
    this.spreads.set(String(way), made);
    return made;
  }
}

function around(one: number, other: number): Pick<MeterCheck, 'least' | 'most'> {
  const [least, most] = one < other ? [one, other] : [other, one];
  return { least: least - Math.abs(least) * METER_ERROR, most: most + Math.abs(most) * METER_ERROR };
}
