/** What a record waits for: an edge, a level, the value of a bus, a pulse that is too short or too long, a finding. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { parseQuantity } from '../units/quantity.ts';
import { busCode, LEVELS, type Signal, signalsOf } from './signals.ts';

/** signal: a word as `signalsOf` takes it; levels are logic levels, as its pin reads or drives them. Times in s. */
export type Trigger =
  | { readonly on: 'edge'; readonly signal: string; readonly way: 'rises' | 'falls' }
  | { readonly on: 'level'; readonly signal: string; readonly level: 'L' | 'H' }
  | { readonly on: 'value'; readonly signal: string; readonly value: number }
  | { readonly on: 'pulse'; readonly signal: string; readonly level: 'L' | 'H'; readonly is: 'shorter' | 'longer'; readonly than: number }
  | { readonly on: 'finding'; readonly code: string };

/** What a trigger may be written as; the words before the first space name what is watched. */
const FORMS: ReadonlyArray<readonly [RegExp, (parts: readonly string[]) => Outcome<Trigger>]> = [
  [/^finding (\S+)$/, ([code = '']) => done({ on: 'finding', code })],
  [/^(\S+) (rises|falls)$/, ([signal = '', way]) => done({ on: 'edge', signal, way: way === 'rises' ? 'rises' : 'falls' })],
  [/^(\S+) (low|high)$/, ([signal = '', level]) => done({ on: 'level', signal, level: level === 'low' ? 'L' : 'H' })],
  [/^(\S+) = (0x[0-9A-Fa-f]+|\d+)$/, ([signal = '', value]) => done({ on: 'value', signal, value: Number(value) })],
  [
    /^(\S+) (low|high) (shorter|longer) than (.+)$/,
    ([signal = '', level, is, time = '']) => {
      const than = parseQuantity(time, 's');
      if (!than.ok) return than;
      return done({
        on: 'pulse',
        signal,
        level: level === 'low' ? 'L' : 'H',
        is: is === 'shorter' ? 'shorter' : 'longer',
        than: than.value,
      });
    },
  ],
];

/** A trigger from a line such as `U1./WE falls`. Fails with `record/bad-trigger` or `value/…`. */
export function readTrigger(text: string): Outcome<Trigger> {
  for (const [form, read] of FORMS) {
    const found = form.exec(text.trim());
    if (found) return read(found.slice(1));
  }
  return failed(
    'record/bad-trigger',
    text,
    `"${text}" is nothing that a record waits for. Write for example: U1./WE falls, a12 high, U1.D = 0x55, U1./WE low shorter than 100ns, finding memory/write-pulse-short.`,
  );
}

const [LOW, HIGH] = [LEVELS.indexOf('L'), LEVELS.indexOf('H')];

export class TriggerWatch {
  /** when it came [s] */
  at: number | undefined;
  /** the last level that was sure: between the two an input keeps none */
  private sure: number | undefined;
  /** since when it stands at that level, if it was seen to go there [s] */
  private since: number | undefined;

  /** place: of its signal among these. Fails with `record/bad-trigger` or `record/nothing-of-this-name`. */
  static of(
    trigger: Trigger,
    signals: readonly Signal[],
    circuit: Circuit,
  ): Outcome<{ readonly watch: TriggerWatch; readonly place: number }> {
    if (trigger.on === 'finding') return done({ watch: new TriggerWatch(trigger), place: -1 });
    const named = signalsOf(trigger.signal, circuit);
    if (!named.ok) return named;
    const kind = trigger.on === 'value' ? 'bus' : 'level';
    const wanted = named.value.find((s) => s.kind === kind);
    const place = signals.findIndex((s) => s.of === wanted?.of && s.name === wanted.name && s.kind === kind);
    if (place < 0 || (trigger.on !== 'value' && named.value[0]?.kind === 'bus'))
      return failed(
        'record/bad-trigger',
        trigger.signal,
        kind === 'bus'
          ? `${trigger.signal} has no value to wait for. Name a bus such as U1.D.`
          : `${trigger.signal} has no logic level to wait for. Name a pin such as U1.D3, or a hole such as a12.`,
      );
    return done({ watch: new TriggerWatch(trigger), place });
  }

  private constructor(private readonly trigger: Trigger) {}

  note(now: number, value: number): void {
    const { trigger } = this;
    if (this.at !== undefined || trigger.on === 'finding') return;
    if (trigger.on === 'value') {
      if (value === busCode(trigger.value, 0)) this.at = now;
      return;
    }
    const isSure = value === LOW || value === HIGH;
    const before = this.sure;
    if (trigger.on === 'level' && value === (trigger.level === 'L' ? LOW : HIGH)) this.at = now;
    if (trigger.on === 'pulse') this.measure(now, value, before, trigger);
    if (!isSure || value === before) return;
    if (trigger.on === 'edge' && before !== undefined && value === (trigger.way === 'rises' ? HIGH : LOW)) this.at = now;
    this.since = before === undefined ? undefined : now;
    this.sure = value;
  }

  found(code: string, now: number): void {
    if (this.at === undefined && this.trigger.on === 'finding' && this.trigger.code === code) this.at = now;
  }

  /** A pulse lasts from the moment at which its level is sure to the moment at which it leaves it. */
  private measure(now: number, value: number, before: number | undefined, { level, is, than }: Extract<Trigger, { on: 'pulse' }>): void {
    const wanted = level === 'L' ? LOW : HIGH;
    if (before !== wanted || this.since === undefined) return;
    const width = now - this.since;
    if (is === 'longer' && width > than) this.at = now;
    if (value === wanted) return;
    if (is === 'shorter' && width < than) this.at = now;
    // what follows is another pulse
    this.since = undefined;
  }
}
