/** The command line: which command, which plan, which words; answers go out, refusals go to the error stream. */
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { DEMO_TABLES, done, type Outcome, writeBenchText } from '../../sim-core/index.ts';
import { checkPlan } from '../check/check-plan.ts';
import { BUILD_USAGE, buildInto, sayBuilt } from './build.ts';
import { codeOf, sayFindings } from './check.ts';
import { table } from './columns.ts';
import { findPlan } from './find-plan.ts';
import { type Judged, judgePlan, MARGIN_SWITCHES, sayJudged } from './margins.ts';
import { press, sayPlayed } from './press.ts';
import { PROVE_SWITCHES, provePlan, sayProof } from './prove.ts';
import { NOTATION } from './script.ts';
import { saySweep, sweepPlan } from './sweep.ts';

/** 0: well; 1: the check found a damage risk or a fault; 2: what was asked could not be done. */
export type ExitCode = 0 | 1 | 2;

/** Where lines go. */
export interface Output {
  out(text: string): void;
  refuse(text: string): void;
}

interface Command {
  readonly usage: string;
  readonly means: string;
  /** it takes words after the plan */
  readonly words?: true;
  /** switches of its own, besides --json */
  readonly switches?: readonly string[];
  /** name: how the plan was named */
  run(plan: Plan, words: readonly string[], name: string): Outcome<Answer>;
}
interface Answer {
  readonly data: unknown;
  readonly text: string;
  readonly code: ExitCode;
}

/** An answer made of a result and the two ways to print it. */
const answer = <T>(result: Outcome<T>, text: (value: T) => string, code: (value: T) => ExitCode = () => 0): Outcome<Answer> =>
  result.ok ? { ok: true, value: { data: result.value, text: text(result.value), code: code(result.value) } } : result;

const COMMANDS: Readonly<Record<string, Command>> = {
  check: {
    usage: 'check PLAN',
    means: 'power the bench, press every button, print the findings; exit code 1 if something may be damaged or cannot work',
    run: (plan) =>
      answer(
        checkPlan(plan),
        (c) => sayFindings(c.findings),
        (c) => codeOf(c.findings),
      ),
  },
  sweep: {
    usage: 'sweep PLAN',
    means: 'set the address switches to every position in turn and print what the LEDs show',
    run: (plan) => answer(sweepPlan(plan), saySweep),
  },
  margins: {
    usage: 'margins PLAN [--method worst|rss|random] [--seed N]',
    means: 'judge write pulse, levels and LEDs over all that varies from part to part; exit code 1 if a margin does not hold',
    words: true,
    switches: MARGIN_SWITCHES,
    run: (plan, words) => answer(judgePlan(plan, words), sayJudged, (j: Judged) => (j.margins.every((m) => m.holds) ? 0 : 1)),
  },
  press: {
    usage: 'press PLAN WORD…',
    means: 'play hands on the bench and print what they see; without a word that asks, ends with read',
    words: true,
    run: (plan, words) => answer(press(plan, words), sayPlayed),
  },
  prove: {
    usage: 'prove PLAN [--sign NAME]',
    means: 'set every row of the wanted table and compare it with the LEDs, and sign it in the file; exit code 1 unless every row is right',
    words: true,
    switches: PROVE_SWITCHES,
    run: (plan, words, name) =>
      answer(
        provePlan(plan, words, name),
        (p) => sayProof(p, plan),
        (p) => (p.right === p.rows ? 0 : 1),
      ),
  },
  text: {
    usage: 'text PLAN',
    means: 'print the plan as text that a person types and compares: keep it in a file that ends in .bench.txt, and use that as PLAN',
    run: (plan) => answer(done(writeBenchText(plan).trimEnd()), (text) => text),
  },
  plan: {
    usage: 'plan PLAN',
    means: 'print the plan as its document, the contents of a .plan.json file',
    run: (plan) => answer(done(plan), (p) => JSON.stringify(p, null, 2)),
  },
};

function help(): string {
  return [
    'npm run lampwright -- COMMAND PLAN [WORD…] [--json]',
    '',
    'PLAN is a file, or the id of a demonstration:',
    table(DEMO_PLANS.map((d) => [`  ${d.id}`, d.plan.title])),
    '',
    'Commands:',
    table(Object.values(COMMANDS).map((c) => [`  ${c.usage}`, c.means])),
    `  ${BUILD_USAGE}`,
    '    write a plan file with a bench that does what a table says: a file of a spreadsheet, or one of',
    `    ${DEMO_TABLES.map((d) => d.id).join(', ')}`,
    '',
    'Words for press, done from left to right:',
    table(NOTATION.map(([word, means]) => [`  ${word}`, means])),
    '',
    '--json prints data instead of sentences. Exit code 2: what was asked could not be done.',
  ].join('\n');
}

export function runCommand(args: readonly string[], mouth: Output): ExitCode {
  const json = args.includes('--json');
  const [name, planName, ...words] = args.filter((a) => a !== '--json');
  const refuse = (at: string, says: string): ExitCode => {
    if (json) mouth.out(JSON.stringify({ at, says }, null, 2));
    else mouth.refuse(says);
    return 2;
  };
  if (name === undefined || name === 'help' || args.includes('--help')) {
    mouth.out(help());
    return 0;
  }
  const give = ({ data, text, code }: Answer): ExitCode => {
    mouth.out(json ? JSON.stringify(data, null, 2) : text);
    return code;
  };
  if (name === 'build') {
    if (planName === undefined) return refuse(name, `build needs a table: a file, or one of ${DEMO_TABLES.map((d) => d.id).join(', ')}.`);
    const built = answer(buildInto(planName, words), sayBuilt);
    return built.ok ? give(built.value) : refuse(built.failure.at, built.failure.says);
  }
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!command) return refuse(name, `There is no command ${name}; there are ${Object.keys(COMMANDS).join(', ')}, build and help.`);
  const switches = [...(command.switches ?? []), '--json'];
  const unknown = words.find((w) => w.startsWith('--') && !switches.includes(w));
  if (unknown)
    return refuse(
      unknown,
      `${unknown} is not known here; ${switches.length === 1 ? 'the only switch is --json' : `${name} takes ${switches.join(', ')}`}.`,
    );
  if (planName === undefined) return refuse(name, `${name} needs a plan: a file, or one of ${DEMO_PLANS.map((d) => d.id).join(', ')}.`);
  if (!command.words && words[0] !== undefined)
    return refuse(words[0], `${name} takes a plan and nothing more; "${words[0]}" is too much.`);
  const plan = findPlan(planName);
  if (!plan.ok) return refuse(plan.failure.at, plan.failure.says);
  const result = command.run(plan.value, words, planName);
  return result.ok ? give(result.value) : refuse(result.failure.at, result.failure.says);
}
