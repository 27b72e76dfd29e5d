/** Things of the bench by what a person types for them: an id in either case, or what their owner calls them. */
import { done, failed, type Outcome, type Ref, readHole } from '../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../state/bench-model.ts';
import type { CommandContext, Offer } from './command.ts';

const same = (a: string | undefined, b: string) => a?.toLowerCase() === b.toLowerCase();

/** The bench, or the sentence that says that there is none. */
export const benchOf = ({ session }: CommandContext): Outcome<BenchModel> =>
  session.model ? done(session.model) : failed('page/no-bench', '', 'There is no bench yet. Open a plan first.');

/** One part; `which` narrows it, `what` says in the refusal what was looked for. */
export function partNamed(
  word: string,
  context: CommandContext,
  what = 'part',
  which: (s: PlacedPart) => boolean = () => true,
): Outcome<PlacedPart> {
  const bench = benchOf(context);
  if (!bench.ok) return bench;
  const all = bench.value.specimens.filter(which);
  const found = all.find((s) => same(s.part.id, word)) ?? all.find((s) => same(s.part.label, word));
  if (found) return done(found);
  const names = all.slice(0, 8).map((s) => s.part.id);
  return failed('command/unknown-name', word, `No ${what} ${word} on this bench${names.length > 0 ? `. It has ${names.join(', ')}` : ''}.`);
}

/** A pole of a switch, from 1: '3', or what it is called; NaN if there is none of that name. */
export function poleNamed(s: PlacedPart, word: string): number {
  const named = s.contacts.find((c) => c.name?.toLowerCase() === word.toLowerCase());
  return named ? named.pole + 1 : /^\d+$/.test(word) ? Number(word) : Number.NaN;
}

/** Anything that has a place: an LED, a part, a leg, a wire, a board, a tie point. */
export function thingNamed(word: string, context: CommandContext): Outcome<Ref> {
  const bench = benchOf(context);
  if (!bench.ok) return bench;
  const { plan, leds, specimens, netOfLeg } = bench.value;
  const ref = (kind: Ref['kind'], id: string) => done<Ref>({ kind, id });
  const led = leds.find((l) => same(l.led, word) || same(l.name, word));
  if (led) return ref('led', led.led);
  const part = specimens.find((s) => same(s.part.id, word)) ?? specimens.find((s) => same(s.part.label, word));
  if (part) return ref('part', part.part.id);
  const [of = '', pin = ''] = word.split('.');
  const owner = specimens.find((s) => same(s.part.id, of));
  const leg = owner?.legs.find((l) => l.pin.pin === pin || same(l.pin.name, pin));
  if (owner && leg && netOfLeg.has(`${owner.part.id}.${leg.pin.pin}`)) return ref('pin', `${owner.part.id}.${leg.pin.pin}`);
  const wire = plan.wires.find((l) => same(l.id, word));
  if (wire) return ref('wire', wire.id);
  const board = plan.boards.find((b) => same(b.id, word));
  if (board) return ref('board', board.id);
  if (readHole(word, plan.boards).ok) return ref('point', word);
  return failed(
    'command/unknown-name',
    word,
    `Nothing on this bench is called ${word}. Write a part such as ${specimens[0]?.part.id ?? 'U1'}, a wire, or a hole such as a12.`,
  );
}

/** Parts, wires and boards, by what they are called; without a word, the selection. */
export function itemsNamed(given: ReadonlyArray<string | undefined>, { builder, session }: CommandContext): Outcome<readonly string[]> {
  const words = given.flatMap((w) => w ?? []);
  if (words.length === 0)
    return builder.chosen.length > 0
      ? done(builder.chosen)
      : failed('edit/nothing-selected', '', 'Nothing is selected. Click a part or a wire, or name one, such as R3.');
  const { parts = [], wires = [], boards = [] } = session.model?.plan ?? {};
  const all = [...parts, ...wires, ...boards];
  const ids: string[] = [];
  for (const word of words) {
    const found = all.find((t) => same(t.id, word)) ?? all.find((t) => 'label' in t && same(t.label, word));
    if (!found) return failed('command/unknown-name', word, `No part or wire on this bench is called ${word}.`);
    ids.push(found.id);
  }
  return done(ids);
}

export const partOffers =
  (which: (s: PlacedPart) => boolean = () => true) =>
  ({ session }: CommandContext): readonly Offer[] =>
    (session.model?.specimens ?? [])
      .filter(which)
      .map((s) => ({ word: s.part.id, means: [s.part.label, s.kind.title].filter(Boolean).join(', ') }));

export const wireOffers = ({ session }: CommandContext): readonly Offer[] =>
  (session.model?.plan.wires ?? []).map((l) => ({ word: l.id, means: `${l.colour}, ${l.from} to ${l.to}` }));

export const ledOffers = ({ session }: CommandContext): readonly Offer[] =>
  (session.model?.leds ?? []).map((l) => ({ word: l.led, means: l.name }));
