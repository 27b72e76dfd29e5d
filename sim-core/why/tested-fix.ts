/** Proof by trying: each edit is made on a copy of the bench, every row is gone through, and one is offered only if nothing is worse anywhere. */
import { apply, join } from '../document/changes.ts';
import { hazardsOf, type SeenRow, seeRows } from '../repair/fix-trial.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import type { LedReading } from '../run/readout/readings.ts';
import { isLit } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import type { Look, TestedFix } from './answer.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';
import { type Intention, intentionOf, lookWanted } from './intention.ts';

/** Single edits tried, and of those how many are paired where none alone is enough. */
const MOST_SINGLES = 24;
const MOST_PAIRED = 6;
/** So many that make the LED look as it should are gone through row by row. */
const MOST_PROVEN = 24;

/** What is asked of a fix: which LED it is for, and how that is to look where the switches stand. */
interface Asked {
  readonly q: ExplanationQuestion;
  readonly led: string;
  readonly look: Look;
  /** false: only the row changes */
  readonly rows: boolean;
}

/**
 * The edit that makes the LED look as the table wants and is better in the most rows, or undefined if none of them holds. An LED that is as the table
 * wants, or of which no table speaks, is made to look the other way. brightness: as it is now; more: tried where none of these holds. Yields before each
 * trial.
 */
export function* testFix(
  q: ExplanationQuestion,
  led: string,
  brightness: LedReading['brightness'],
  fixes: readonly CandidateFix[],
  more: () => readonly CandidateFix[] = () => [],
): Generator<void, TestedFix | undefined> {
  const intention = intentionOf(q);
  const wants = lookWanted(intention, led);
  const now = isLit(brightness) ? 'lit' : brightness;
  const other = brightness === 'lit' ? 'dark' : 'lit';
  const asWanted = wants !== undefined && wants === now;
  const setsRow = (fix: CandidateFix) =>
    fix.code === 'set-switch' && (intention?.inputs.some((i) => i.part === fix.at[0]?.id && i.pole + 1 === fix.data.pole) ?? false);
  // the switches make the row: where it is right, another row is all that changes it, and where it is wrong, another row is no cure
  const possible = fixes.filter((fix) => wants === undefined || setsRow(fix) === asWanted).slice(0, MOST_SINGLES);
  const judge = new FixJudge({ q, led, look: (!asWanted && wants) || other, rows: !asWanted });
  const alone = yield* best(judge, possible);
  if (alone) return alone;
  const further = asWanted || wants === undefined ? undefined : yield* best(judge, more());
  if (further) return further;
  const some = possible.slice(0, MOST_PAIRED);
  return yield* best(
    judge,
    some.flatMap((a, i) =>
      some.slice(i + 1).map((b) => ({ code: 'both', at: [...a.at, ...b.at], data: {}, change: join(a.change, b.change), both: [a, b] })),
    ),
  );
}

/** The first that makes every row right, else the one with the most right rows and the fewest other LEDs changed; ties go to the one that came first. */
function* best(judge: FixJudge, fixes: readonly (CandidateFix & Pick<TestedFix, 'both'>)[]): Generator<void, TestedFix | undefined> {
  let found: TestedFix | undefined;
  let proven = 0;
  for (const fix of fixes) {
    if (proven === MOST_PROVEN) break;
    yield;
    const tried = judge.look(fix);
    if (!tried) continue;
    proven += 1;
    const rows = judge.prove(tried);
    if (!rows) continue;
    const tested = { ...tried, ...rows };
    if (!found || gain(tested) > gain(found) || (gain(tested) === gain(found) && tested.others.length < found.others.length))
      found = tested;
    // without a table the first that says what is so is as good as any
    if (found.rows ? found.rows.right === found.rows.of : found.claims) break;
  }
  return found;
}

const gain = (fix: TestedFix): number => fix.rows?.right ?? 0;

class FixJudge {
  private readonly intention: Intention | undefined;
  private before: readonly SeenRow[] | undefined;
  private hazards: ReadonlySet<string> | undefined;

  constructor(private readonly asked: Asked) {
    this.intention = intentionOf(asked.q);
  }

  /** Does the LED look as it should where the switches stand? */
  look(fix: CandidateFix & Pick<TestedFix, 'both'>): TestedFix | undefined {
    const { q, led, look } = this.asked;
    const built = simulate(apply(q.sim.plan(), fix.change), { still: true, bounce: false });
    if (!built.ok) return undefined;
    const [before, after] = [q.scene.readings.leds, built.value.readings().leds];
    // a damaged LED is no LED any more, but was dark
    const was = before.find((l) => l.led === led) ?? ({ amps: 0, brightness: 'dark' } as const);
    const is = after.find((l) => l.led === led);
    if (is?.brightness !== look) return undefined;
    const others = after.filter((l) => l.led !== led && l.brightness !== lookOf(before, l.led)).map((l) => l.led);
    const { change, code, at, data, both, claims } = fix;
    return {
      ...{ change, code, at, data, ...(both ? { both } : {}), ...(claims ? { claims } : {}), others },
      before: { amps: was.amps, brightness: was.brightness },
      after: { amps: is.amps, brightness: is.brightness },
    };
  }

  /** How many rows are right after it; undefined: something is worse, or this LED is still wrong somewhere. */
  prove({ change }: TestedFix): Pick<TestedFix, 'rows'> | undefined {
    const { q, led, rows } = this.asked;
    const plan = q.sim.plan();
    const fixed = apply(plan, change);
    const { intention } = this;
    const output = intention?.outputs.get(led);
    if (!intention || output === undefined || !rows) return this.isHarmless(fixed) ? {} : undefined;
    this.before ??= seeRows(plan, intention);
    const { before } = this;
    const isWorse = ({ wrong, unknown }: SeenRow, k: number) => {
      const was = before?.[k];
      return ((wrong | unknown) >> output) & 1 || !was || wrong & ~was.wrong || unknown & ~(was.wrong | was.unknown);
    };
    const after = seeRows(fixed, intention, (row, k) => Boolean(isWorse(row, k)));
    if (!after || !this.before || after.length < this.before.length || !this.isHarmless(fixed)) return undefined;
    return { rows: { was: rightOf(this.before), right: rightOf(after), of: after.length, all: 2 ** intention.inputs.length } };
  }

  private isHarmless(fixed: ReturnType<typeof apply>): boolean {
    const { q } = this.asked;
    const inputs = this.intention?.inputs ?? [];
    const hazards = (plan: ReturnType<typeof apply>) => {
      const circuit = buildCircuit(plan);
      const built = circuit.ok ? simulate(switchedOn(plan, circuit.value), { still: true, bounce: false }) : circuit;
      return built.ok ? hazardsOf(built.value, inputs) : undefined;
    };
    const after = hazards(fixed);
    this.hazards ??= hazards(q.sim.plan());
    const { hazards: before } = this;
    return after !== undefined && before !== undefined && [...after].every((key) => before.has(key));
  }
}

const rightOf = (rows: readonly SeenRow[]): number => rows.filter((r) => (r.wrong | r.unknown) === 0).length;

const lookOf = (leds: readonly LedReading[], led: string) => leds.find((l) => l.led === led)?.brightness;
