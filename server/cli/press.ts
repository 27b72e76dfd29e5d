/** `press PLAN WORD…`: sets switches and presses buttons on a bench and prints what shows. */
import type { Plan } from '../../shared/plan.ts';
import {
  done,
  explain,
  failed,
  findingsNow,
  type Outcome,
  plain,
  type ReadingBand,
  readingBand,
  readQuestion,
  type Simulation,
  sayBand,
  simulate,
} from '../../sim-core/index.ts';
import { type Checked, sayAll } from '../check/check-plan.ts';
import { carryOut } from './carry-out.ts';
import { sayFindings } from './check.ts';
import { table } from './columns.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';
import { type BenchReading, readNow, sayReading } from './reading.ts';
import { NOTATION, readScript, type ScriptStep } from './script.ts';

export const PRESS: ShellCommand = {
  name: 'press',
  means: 'set switches, press buttons and read the bench, word by word; reads at the end if no word asks for anything',
  takes: 'PLAN',
  more: 'WORD…',
  options: {},
  notes: () => ['Words, carried out from left to right:', table(NOTATION.map(([word, means]) => [`  ${word}`, means]))].join('\n'),
  run({ words: [name = '', ...words] }) {
    const plan = findPlan(name);
    return plan.ok ? answer(press(plan.value, words), sayPlayed) : plan;
  },
};

/** What came of one step. Only steps that ask for something have something to show. */
interface Played {
  readonly step: string;
  readonly reading?: BenchReading;
  readonly findings?: Checked['findings'];
  readonly band?: ReadingBand & { readonly of: string };
  readonly why?: {
    /** of an LED */
    readonly led?: string;
    readonly brightness?: string;
    readonly amps?: number;
    /** of anything else: what was asked, and the figures of the answer */
    readonly about?: string;
    readonly note?: string;
    readonly says: string;
    readonly steps: ReadonlyArray<{ readonly says: string; readonly figures: string }>;
    readonly proof?: string;
  };
}

/** A script that asks for nothing ends with one reading. */
function press(plan: Plan, words: readonly string[]): Outcome<readonly Played[]> {
  const script = readScript(words, plan);
  if (!script.ok) return script;
  const asks = script.value.some((s) => ['read', 'why', 'findings', 'band'].includes(s.do));
  const steps: readonly ScriptStep[] = asks ? script.value : [...script.value, { word: 'read', do: 'read' }];
  const sim = simulate(plan);
  if (!sim.ok) return sim;
  const played: Played[] = [];
  for (const [i, step] of steps.entries()) {
    const result = play(sim.value, step);
    if (!result.ok) return failed(result.failure.code, `word ${i + 1}`, `Word ${i + 1}, "${step.word}": ${result.failure.says}`);
    played.push({ step: step.word, ...result.value });
  }
  return done(played);
}

function play(sim: Simulation, step: ScriptStep): Outcome<Omit<Played, 'step'>> {
  switch (step.do) {
    case 'acts':
    case 'press':
    case 'wait': {
      const did = carryOut(sim, step);
      return did.ok ? done({}) : did;
    }
    case 'read':
      return done({ reading: readNow(sim) });
    case 'band': {
      const band = readingBand(sim.plan(), step.of);
      return band.ok ? done({ band: { of: step.of, ...band.value } }) : band;
    }
    case 'findings':
      return done({ findings: sayAll(findingsNow(sim), sim.circuit.plan) });
    case 'why': {
      const question = readQuestion(step.question, { plan: sim.circuit.plan, leds: sim.circuit.leds.map((l) => l.id) });
      if (!question.ok) return question;
      const words = explain(sim, question.value);
      const led = question.value.about === 'led' && sim.readings().leds.find((l) => l.led === question.value.id);
      return done({
        why: {
          ...(led ? { led: led.led, brightness: led.brightness, amps: led.amps } : { about: step.question }),
          says: plain(words.headline),
          ...(led ? {} : { note: words.note }),
          steps: words.steps.map(({ says, figures }) => ({ says: plain(says), figures })),
          ...(words.proof ? { proof: plain(words.proof.says) } : {}),
        },
      });
    }
  }
}

function sayPlayed(played: readonly Played[]): string {
  return played
    .map(({ step, reading, findings, band, why }) => {
      const lines: string[] = [];
      if (reading) lines.push(sayReading(reading));
      if (band) lines.push(`${band.of}: ${sayBand(band)}`);
      if (findings) lines.push(sayFindings(findings));
      if (why)
        lines.push(
          why.note ? `${why.says} ${why.note}.` : why.says,
          ...why.steps.map((w) => (w.figures ? `  ${w.says} ${w.figures}` : `  ${w.says}`)),
          ...(why.proof ? [why.proof] : []),
        );
      return lines.length > 0 ? `${step}\n${lines.join('\n')}` : step;
    })
    .join('\n');
}
