/** Proof by trying: each edit is made on a variant of the bench, every row is gone through, and one is offered only if nothing is worse anywhere. */
import { apply, type Change, join } from '../document/changes.ts';
import { EditTrial, isWrong, poweredBench, type SeenRow } from '../repair/edit-trial.ts';
import { hazardsOf } from '../repair/hazards.ts';
import type { Simulation } from '../run/api.ts';
import type { LedReading } from '../run/readout/readings.ts';
import { BRIGHTNESSES, isLit } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import { blankSignature } from '../run/variants/probe-points.ts';
import { signature } from '../run/variants/signature.ts';
import { variant } from '../run/variants/variant.ts';
import type { Look, Reason, TestedFix } from './answer.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';
import { type Intention, intentionOf, lookWanted } from './intention.ts';
import { verdictOf } from './verdict.ts';

/** Single edits tried, and of those how many are paired where none alone is enough. */
const MOST_SINGLES = 24;
const MOST_PAIRED = 6;

/** What is asked of a fix: which LED it is for, and how that is to look where the switches stand. */
interface Asked {
  readonly q: ExplanationQuestion;
  readonly led: string;
  readonly look: Look;
  /** false: only the row changes */
  readonly rows: boolean;
}

/** A fix that holds, and what would do the same instead of it. */
export interface FoundFix {
  readonly proof: TestedFix | undefined;
  readonly instead: readonly Reason[];
}

type Tried = CandidateFix & Pick<TestedFix, 'both'>;

/**
 * The edit that makes every row of the table right, else one that makes the LED look as the table wants and is better in the most rows, or none. An LED that
 * is as the table wants, or of which no table speaks, is made to look the other way. brightness: as it is now; meant: what undoes a difference from the bench as meant. Yields between two tries.
 */
export function* testFix(
  q: ExplanationQuestion,
  led: string,
  brightness: LedReading['brightness'],
  fixes: readonly CandidateFix[],
  meant: readonly CandidateFix[] = [],
): Generator<undefined, FoundFix> {
  const intention = intentionOf(q);
  const wants = lookWanted(intention, led);
  const now = isLit(brightness) ? 'lit' : brightness;
  const other = brightness === 'lit' ? 'dark' : 'lit';
  const asWanted = wants !== undefined && wants === now;
  const setsRow = (fix: CandidateFix) =>
    fix.code === 'set-switch' && (intention?.inputs.some((i) => i.part === fix.at[0]?.id && i.pole + 1 === fix.data.pole) ?? false);
  // the switches make the row: where it is right, another row is all that changes it, and where it is wrong, another row is no cure
  const possible = [...meant, ...fixes].filter((fix) => wants === undefined || setsRow(fix) === asWanted).slice(0, MOST_SINGLES);
  const own = possible.filter((f) => !meant.includes(f));
  const verdict = intention && !asWanted ? yield* verdictOf(q, intention, own, meant) : undefined;
  const found = verdict && { ...measured(q, led, verdict.fix), rows: verdict.rows };
  // of an LED of which the table says nothing here it is the cause only if it changes it
  if (found && verdict && (wants !== undefined || found.after.brightness !== found.before.brightness))
    return { proof: found, instead: verdict.instead };
  const judge = new FixJudge({ q, led, look: (!asWanted && wants) || other, rows: !asWanted });
  const some = possible.slice(0, MOST_PAIRED);
  const pairs = () =>
    some.flatMap((a, i) =>
      some.slice(i + 1).map((b) => ({ code: 'both', at: [...a.at, ...b.at], data: {}, change: join(a.change, b.change), both: [a, b] })),
    );
  return { proof: (yield* best(judge, possible)) ?? (yield* best(judge, pairs())), instead: [] };
}

/** The first that makes every row right, else the one with the most right rows and the fewest other LEDs changed; ties go to the one that came first. */
function* best(judge: FixJudge, fixes: readonly Tried[]): Generator<undefined, TestedFix | undefined> {
  let found: TestedFix | undefined;
  for (const fix of fixes) {
    yield;
    const rows = judge.looksRight(fix.change) ? yield* judge.prove(fix.change) : undefined;
    if (!rows) continue;
    const tested = { ...judge.measured(fix), ...rows };
    if (!found || gain(tested) > gain(found) || (gain(tested) === gain(found) && tested.others.length < found.others.length))
      found = tested;
    // without a table the first that says what is so is as good as any
    if (found.rows ? found.rows.right === found.rows.of : found.claims) break;
  }
  return found;
}

const gain = (fix: TestedFix): number => fix.rows?.right ?? 0;

/** The fix with what the LED is before and after it, where the switches stand, and the other LEDs that change. */
function measured({ sim, scene }: ExplanationQuestion, led: string, fix: Tried): TestedFix {
  const made = simulate(apply(sim.plan(), fix.change), { still: true, bounce: false });
  if (!made.ok) throw new Error(made.failure.says);
  const [before, after] = [scene.readings.leds, made.value.readings().leds];
  // a damaged LED is no LED any more, but was dark
  const reading = (leds: readonly LedReading[]) => leds.find((l) => l.led === led) ?? ({ amps: 0, brightness: 'dark' } as const);
  const look = ({ amps, brightness }: Pick<LedReading, 'amps' | 'brightness'>) => ({ amps, brightness });
  const others = after.filter((l) => l.led !== led && l.brightness !== lookOf(before, l.led)).map((l) => l.led);
  return { ...fix, others, before: look(reading(before)), after: look(reading(after)) };
}

const lookOf = (leds: readonly LedReading[], led: string) => leds.find((l) => l.led === led)?.brightness;

class FixJudge {
  private readonly intention: Intention | undefined;
  private base: Simulation | undefined;
  private trial: EditTrial | undefined;
  private hazards: ReadonlySet<string> | undefined;

  constructor(private readonly asked: Asked) {
    this.intention = intentionOf(asked.q);
  }

  measured(fix: Tried): TestedFix {
    return measured(this.asked.q, this.asked.led, fix);
  }

  /** Does the LED look as it should where the switches stand? */
  looksRight(change: Change): boolean {
    const { q, led, look } = this.asked;
    return lookAfter(q.sim, change, led) === look;
  }

  /** How many rows are right after it; undefined: something is worse, or this LED is still wrong somewhere. */
  *prove(change: Change): Generator<undefined, Pick<TestedFix, 'rows'> | undefined> {
    const { led, rows } = this.asked;
    const { intention } = this;
    const output = intention?.outputs.get(led);
    if (!intention || output === undefined || !rows) return (yield* this.isHarmless(change)) ? {} : undefined;
    const trial = this.trialOf(intention);
    if (!trial) return undefined;
    const { before } = trial;
    const isWorse = ({ wrong, unknown }: SeenRow, k: number) => {
      const was = before[k];
      return Boolean(((wrong | unknown) >> output) & 1 || !was || wrong & ~was.wrong || unknown & ~(was.wrong | was.unknown));
    };
    const after = trial.after(change, undefined, isWorse);
    if (!after || after.some(isWorse) || !(yield* this.isHarmless(change))) return undefined;
    return { rows: { was: rightOf(before), right: rightOf(after), of: after.length, all: 2 ** intention.inputs.length } };
  }

  private powered(): Simulation | undefined {
    this.base ??= poweredBench(this.asked.q.sim);
    return this.base;
  }

  private trialOf(intention: Intention): EditTrial | undefined {
    const base = this.powered();
    this.trial ??= base && new EditTrial(base, intention);
    return this.trial;
  }

  private *isHarmless(change: Change): Generator<undefined, boolean> {
    // every setting is gone through with it and without
    if (change.op === 'set' && change.field === 'switches') return true;
    const base = this.powered();
    const inputs = this.intention?.inputs ?? [];
    const after = base && variant(base, change);
    const before = base && variant(base, join());
    if (!after?.ok || !before?.ok) return false;
    const found = yield* hazardsOf(after.value, inputs);
    if (found.size === 0) return true;
    this.hazards ??= yield* hazardsOf(before.value, inputs);
    const known = this.hazards;
    return [...found].every((key) => known.has(key));
  }
}

/** How an LED looks where the switches stand, after this change; undefined: it is not there. */
export function lookAfter(sim: Simulation, change: Change, led: string): LedReading['brightness'] | undefined {
  const made = variant(sim, change);
  if (!made.ok) return undefined;
  const [rows, points] = [
    { poles: [], rows: new Uint32Array(1) },
    { leds: [led], holes: [] },
  ];
  const into = blankSignature(rows, points);
  signature(made.value, rows, points, into);
  return BRIGHTNESSES[into.leds[0] as number];
}

const rightOf = (rows: readonly SeenRow[]): number => rows.filter((r) => !isWrong(r)).length;
