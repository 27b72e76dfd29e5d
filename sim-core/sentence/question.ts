/** What may be asked "why": how a person writes it, and what is said to one who asks about something that has no why. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { shortened } from '../../shared/quoted.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import { capital, noun, plain } from './wording.ts';

/** id: 'LED3' or 'DS1.a' of an LED, 'U1.20' (by its number) of a chip's pin, 'W7' of a wire, 'U1' of a memory: its last write, or its row; row: '01100', the table's inputs in their order, or '0x006'. */
export type WhyQuestion =
  | { readonly about: 'led'; readonly id: string; readonly supposed?: 'dark' | 'lit' }
  | { readonly about: 'pin' | 'wire' | 'write'; readonly id: string }
  | { readonly about: 'row'; readonly id: string; readonly row?: string }
  | { readonly about: 'flicker'; readonly of: 'led' | 'pin'; readonly id: string };

/** A bench by its plan and the LEDs on it: 'LED3', 'DS1.a'. */
interface AskedBench {
  readonly plan: Plan;
  readonly leds: readonly string[];
}

/** Groups of parts whose pins have levels. */
const CHIPS: ReadonlySet<string> = new Set(['memory', 'logic']);

/** What was named, before it is known what is asked of it. */
type Named = { readonly kind: 'led' | 'pin' | 'wire' | 'memory'; readonly id: string };

/**
 * Reads a question such as 'LED1', 'LED1 dark', 'U1.A4', 'U1.20', 'W3', 'U1 write', 'U1 row' or 'U1 row 01100' or 'LED1 flickers', in either case. Fails with `run/nothing-to-explain` and says what can
 * be asked instead.
 */
export function readQuestion(text: string, bench: AskedBench): Outcome<WhyQuestion> {
  const [name = '', ...aspect] = text.trim().split(/\s+/);
  const named = thingNamed(name, bench);
  if ('nothing' in named) return refused(name, named.nothing, bench);
  const question = asked(named, aspect.join(' ').toLowerCase(), bench.plan.wanted?.inputs.length);
  return question ? done(question) : refused(text, `"why ${shortened(text)}" is not a question that can be answered.`, bench);
}

/** What is not a row of a table with so many inputs, nor an address, is no question. */
function asked({ kind, id }: Named, aspect: string, inputs: number | undefined): WhyQuestion | undefined {
  if (kind === 'led' && (aspect === 'dark' || aspect === 'lit')) return { about: 'led', id, supposed: aspect };
  if ((kind === 'led' || kind === 'pin') && /^flickers?$/.test(aspect)) return { about: 'flicker', of: kind, id };
  if (kind === 'memory') {
    const [, row] = /^row(?: (0x[0-9a-f]{1,8}|[01]+))?$/.exec(aspect) ?? [];
    if (row !== undefined) return row.startsWith('0x') || row.length === inputs ? { about: 'row', id, row } : undefined;
    return aspect === '' || aspect === 'row' ? { about: 'row', id } : aspect === 'write' ? { about: 'write', id } : undefined;
  }
  return aspect === '' ? { about: kind, id } : undefined;
}

function thingNamed(name: string, bench: AskedBench): Named | { readonly nothing: string } {
  const { plan } = bench;
  const led = ledNamed(name, bench);
  if (led !== undefined) return { kind: 'led', id: led };
  const wire = plan.wires.find((w) => isSame(w.id, name));
  if (wire) return { kind: 'wire', id: wire.id };
  const [of = name, pin] = name.split('.');
  const part = partNamed(of, plan);
  if (!part) return { nothing: `Nothing on this bench is called ${shortened(name)}.` };
  if (pin === undefined && partKind(part.kind)?.group === 'memory') return { kind: 'memory', id: part.id };
  const number = pin === undefined ? undefined : pinNumber(part, pin);
  if (number !== undefined) return { kind: 'pin', id: `${part.id}.${number}` };
  return { nothing: `${plain([capital(noun({ kind: 'part', id: part.id }, plan))])} has no why of its own.` };
}

/** What is written after the name. */
const ABOUT: Readonly<Partial<Record<WhyQuestion['about'], readonly string[]>>> = { write: ['write'], flicker: ['flickers'] };

/** As a person would write it, and as a link to the answer says it. */
export function writeQuestion(question: WhyQuestion): string {
  const { about, id } = question;
  const words = about === 'led' ? [question.supposed] : about === 'row' ? ['row', question.row] : (ABOUT[about] ?? []);
  return [id, ...words].filter((w) => w !== undefined).join(' ');
}

const isSame = (a: string | undefined, b: string): boolean => a?.toLowerCase() === b.toLowerCase();

/** By its id, by what its owner calls it where it is a part of its own, or one of a damaged part, which is read no more. */
function ledNamed(name: string, { plan, leds }: AskedBench): string | undefined {
  const found = leds.find((l) => isSame(l, name)) ?? leds.find((l) => plan.parts.some((p) => p.id === l && isSame(p.label, name)));
  if (found !== undefined) return found;
  const part = plan.parts.find((p) => p.id === name.split('.')[0]);
  return part?.damaged && partKind(part.kind)?.group === 'led' ? name : undefined;
}

const partNamed = (name: string, { parts }: Plan): PlanPart | undefined =>
  parts.find((p) => isSame(p.id, name)) ?? parts.find((p) => isSame(p.label, name));

/** Of a chip's pin, by its name or its number. */
function pinNumber(part: PlanPart, pin: string): string | undefined {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  if (!kind || !params?.ok || !CHIPS.has(kind.group)) return undefined;
  const pins = kind.pins(params.value);
  return (pins.find((p) => isSame(p.name, pin)) ?? pins.find((p) => p.pin === pin))?.pin;
}

/** With an example of each kind of thing on this bench that can be asked about. */
function refused(at: string, says: string, { plan, leds }: AskedBench): Outcome<never> {
  const examples = [
    ['an LED', leds[0]],
    ['a pin', pinExample(plan)],
    ['a wire', plan.wires[0]?.id],
    ['a memory', plan.parts.find((p) => partKind(p.kind)?.group === 'memory')?.id],
  ].flatMap(([what, id]) => (id === undefined ? [] : [`${what} (${id})`]));
  const choices = [examples.slice(0, -1).join(', '), ...examples.slice(-1)].filter((c) => c !== '').join(' or ');
  const instead = choices ? `Ask about ${choices}.` : 'Nothing on this bench can be asked about yet.';
  return failed('run/nothing-to-explain', shortened(at), `${says} ${instead}`);
}

/** The first pin of the first chip that has inputs or outputs. */
function pinExample({ parts }: Plan): string | undefined {
  for (const part of parts) {
    const kind = partKind(part.kind);
    const params = kind && readParams(kind, part);
    const pin =
      kind && params?.ok && CHIPS.has(kind.group) && kind.pins(params.value).find((p) => p.role === 'input' || p.role === 'output');
    if (pin) return `${part.id}.${pin.name}`;
  }
  return undefined;
}
