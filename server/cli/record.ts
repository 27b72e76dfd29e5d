/** `record PLAN WORD…`: carries out words as `press` does, records what is watched, and writes it as a value change dump or as a table. */
import { writeFileSync } from 'node:fs';
import type { Plan } from '../../shared/plan.ts';
import {
  BenchRecord,
  done,
  failed,
  findingsNow,
  type Outcome,
  parseQuantity,
  RecordedBench,
  type RecordOptions,
  readTrigger,
  recordCsv,
  recordVcd,
  siFormat,
} from '../../sim-core/index.ts';
import { carryOut } from './carry-out.ts';
import { table } from './columns.ts';
import { type Arguments, answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';
import { type BenchReading, readNow, sayReading } from './reading.ts';
import { readScript } from './script.ts';

export const RECORD: ShellCommand = {
  name: 'record',
  means: 'carry out the words of press and record pins, buses, holes, LEDs, supplies and memories over time',
  takes: 'PLAN',
  more: 'WORD…',
  options: {
    watch: { value: 'NAMES', means: 'what is recorded, with commas: U1./WE, U1.D, a12, LED1, PS1, U1' },
    vcd: { value: 'FILE', means: 'write a value change dump (IEEE 1364)' },
    csv: { value: 'FILE', means: 'write a table, one line for every moment at which something moved' },
    trigger: {
      value: 'WHEN',
      means: 'wait for this: "U1./WE falls", "a12 high", "U1.D = 0x55", "U1./WE low shorter than 100ns", "finding CODE"',
    },
    before: { value: 'TIME', means: 'so much before the trigger is kept' },
    after: { value: 'TIME', means: 'so much after the trigger is recorded' },
    show: { value: 'TIME', means: 'print the whole bench as it was at this time' },
  },
  run(given) {
    const plan = findPlan(given.words[0] ?? '');
    return plan.ok ? answer(record(plan.value, given), sayRecord) : plan;
  },
};

interface RecordAnswer {
  /** [s] of simulated time */
  readonly from: number;
  readonly until: number;
  readonly triggered?: number;
  readonly signals: ReadonlyArray<{ readonly name: string; readonly kind: string; readonly spans: number }>;
  readonly files: readonly string[];
  /** the bench as it was then [s] */
  readonly shown?: { readonly at: number; readonly reading: BenchReading };
}

function record(plan: Plan, { words: [, ...words], values }: Arguments): Outcome<RecordAnswer> {
  const script = readScript(words, plan);
  if (!script.ok) return script;
  const options = optionsOf(values);
  if (!options.ok) return options;
  const show = values.show === undefined ? done(undefined) : parseQuantity(values.show, 's');
  if (!show.ok) return show;
  const running = RecordedBench.of(plan);
  if (!running.ok) return running;
  const { value: recorded } = running;
  const { live } = recorded;
  const watched = (values.watch ?? '').split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()]));
  if (watched.length === 0) return failed('record/nothing-of-this-name', 'watch', 'Name what is recorded: --watch U1./WE,U1.D,LED1.');
  const made = BenchRecord.of(watched, live.circuit, options.value);
  if (!made.ok) return made;
  const bench = made.value;
  live.tell(bench);
  for (const [i, step] of script.value.entries()) {
    const did = carryOut(recorded, step);
    if (!did.ok) return failed(did.failure.code, `word ${i + 1}`, `Word ${i + 1}, "${step.word}": ${did.failure.says}`);
    if (options.value.trigger?.on === 'finding') for (const { code } of findingsNow(live)) bench.found(code, live.now);
  }
  bench.passed(live.now);
  const files = writeFiles(bench, values);
  if (!files.ok) return files;
  const { window, triggered } = bench;
  return done({
    from: window?.from ?? 0,
    until: window?.until ?? 0,
    ...(triggered === undefined ? {} : { triggered }),
    signals: bench.all.map(({ signal, track }) => ({ name: nameOf(signal), kind: signal.kind, spans: track.length })),
    files: files.value,
    ...(show.value === undefined ? {} : { shown: { at: show.value, reading: readNow(recorded.at(show.value)) } }),
  });
}

const nameOf = ({ of, name }: { readonly of: string; readonly name: string }) => (of === '' ? name : `${of}.${name}`);

function optionsOf({ trigger, before, after }: Arguments['values']): Outcome<RecordOptions> {
  const when = trigger === undefined ? undefined : readTrigger(trigger);
  if (when && !when.ok) return when;
  const times = [before, after].map((text) => (text === undefined ? done(undefined) : parseQuantity(text, 's')));
  for (const time of times) if (!time.ok) return time;
  const [early, late] = times.map((t) => (t.ok ? t.value : undefined));
  return done({
    ...(when ? { trigger: when.value } : {}),
    ...(early === undefined ? {} : { before: early }),
    ...(late === undefined ? {} : { after: late }),
  });
}

function writeFiles(bench: BenchRecord, { vcd, csv }: Arguments['values']): Outcome<readonly string[]> {
  const texts = [
    ...(vcd === undefined ? [] : [[vcd, recordVcd(bench)] as const]),
    ...(csv === undefined ? [] : [[csv, recordCsv(bench)] as const]),
  ];
  if (texts.length === 0 && !bench.window) return recordVcd(bench) as Outcome<never>;
  for (const [file, text] of texts) {
    if (!text.ok) return text;
    try {
      writeFileSync(file, text.value);
    } catch (e) {
      return failed('file/unwritable', file, `${file} cannot be written: ${e instanceof Error ? e.message : String(e)}.`);
    }
  }
  return done(texts.map(([file]) => file));
}

const time = (seconds: number): string => siFormat(seconds, 's');

function sayRecord({ from, until, triggered, signals, files, shown }: RecordAnswer): string {
  return [
    `Recorded from ${time(from)} to ${time(until)}${triggered === undefined ? '' : `, trigger at ${time(triggered)}`}.`,
    table(signals.map(({ name, kind, spans }) => [`  ${name}`, kind, spans === 1 ? 'did not move' : `${spans} spans`])),
    ...files.map((file) => `Written: ${file}`),
    ...(shown ? [`At ${time(shown.at)}:`, sayReading(shown.reading)] : []),
  ].join('\n');
}
