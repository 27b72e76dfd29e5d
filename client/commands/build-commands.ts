/** Building by name: parts and leads placed, moved, turned, copied, repeated and taken off; boards and rails. Without a name, what is chosen is meant. */
import { type Outcome, parseQuantity, partKind } from '../core.ts';
import { LEAD_COLOURS } from '../edit/builder.ts';
import { stock, wareSays } from '../edit/stock.ts';
import type { Answer, Command, Desk, Offer, Slot } from './command.ts';
import { refusal, said } from './line.ts';
import { leadOffers, partNamed, partOffers } from './named.ts';

const thingOffers = (desk: Desk): readonly Offer[] => [...partOffers()(desk), ...leadOffers(desk)];
const THINGS: Slot = { shown: 'THING', optional: true, many: true, offers: thingOffers };

/** The named things, or what is chosen. */
function things(words: readonly string[], { builder, session }: Desk): Outcome<readonly string[]> {
  if (words.length === 0)
    return builder.chosen.length > 0
      ? { ok: true, value: builder.chosen }
      : refusal('', 'Nothing is chosen. Click a part or a lead first, or name it, such as R3.');
  const { parts = [], leads = [], boards = [] } = session.standing?.plan ?? {};
  const all = [...parts, ...leads, ...boards];
  const ids: string[] = [];
  for (const word of words) {
    const found =
      all.find((t) => t.id.toLowerCase() === word.toLowerCase()) ??
      all.find((t) => 'label' in t && t.label?.toLowerCase() === word.toLowerCase());
    if (!found) return refusal(word, `There is nothing called ${word} on this bench that hands could take. Name a part or a lead.`);
    ids.push(found.id);
  }
  return { ok: true, value: ids };
}

/** An action on the named or chosen things. */
const onThings = (
  name: string,
  means: string,
  done: string,
  key: Readonly<Record<string, string>> | undefined,
  act: (ids: readonly string[], desk: Desk) => Outcome<unknown>,
): Command => ({
  name,
  group: 'Building',
  means,
  example: `${name} R1`,
  takes: [THINGS],
  ...(key ? { keys: key } : {}),
  run(words, desk) {
    const ids = things(words, desk);
    if (!ids.ok) return ids;
    const answer = act(ids.value, desk);
    return answer.ok ? said(`${ids.value.join(', ')} ${done}.`) : answer;
  },
});

const place: Command = {
  name: 'place',
  group: 'Building',
  means: 'put a part from the shelf on the bench: what it is, then where',
  example: 'place 4k7 resistor e14',
  takes: [
    { shown: 'PART', offers: () => stock('').flatMap((s) => s.wares.map((w) => ({ word: w.kind.id, means: wareSays(w) }))) },
    { shown: 'words and TIE POINTS', optional: true, many: true },
  ],
  run(words, { builder }) {
    const points = words.filter((w) => POINT.test(w));
    const search = words.filter((w) => !POINT.test(w)).join(' ');
    const byId = partKind(search.toLowerCase());
    const ware = stock(search)[0]?.wares[0];
    const wish = byId ? { kind: byId.id } : ware?.wish;
    if (!wish) return refusal(search, `Nothing on the shelf is like "${search}". Try what it does, a value, or a number of pins.`);
    const [at, to] = points;
    const done = builder.place({ ...wish, ...(at ? { at } : {}), ...(to ? { to } : {}) });
    if (!done.ok) return done;
    const part = done.value.op === 'add-part' ? done.value.part : undefined;
    return said(part ? `${part.id} placed${part.at ? ` at ${part.at}${part.to ? ` and ${part.to}` : ''}` : ' beside the boards'}.` : '');
  },
};
/** A tie point: what else could be meant by a letter from a to j and a number is no part. */
const POINT = /^(?:[A-Za-z]\w*:)?[+\-−]?[a-jA-J]\d{1,2}$/;

const lead: Command = {
  name: 'lead',
  group: 'Building',
  means: 'lay a lead from one tie point, terminal or leg to another',
  example: 'lead PS1.+ +j1 red',
  takes: [{ shown: 'FROM' }, { shown: 'TO' }, { shown: 'COLOUR', optional: true, offers: () => LEAD_COLOURS.map((word) => ({ word })) }],
  run([from = '', to = '', colour], desk) {
    if (colour !== undefined) desk.builder.leadColour = colour.toLowerCase();
    const done = desk.builder.lead(byName(from, desk), byName(to, desk));
    if (!done.ok) return done;
    return said(done.value.op === 'add-lead' ? `${done.value.lead.id} joins ${done.value.lead.from} and ${done.value.lead.to}.` : '');
  },
};

/** A leg by its pin's name, 'U1.A0', as the number that the bench knows it by. */
function byName(typed: string, { session }: Desk): string {
  const [part = '', pin] = typed.split('.');
  const s = session.standing?.specimens.find((x) => x.part.id.toLowerCase() === part.toLowerCase());
  const named = s?.legs.find((l) => l.pin.name.toLowerCase() === pin?.toLowerCase());
  return s && named ? `${s.part.id}.${named.pin.pin}` : typed;
}

const move: Command = {
  name: 'move',
  group: 'Building',
  means: 'move a thing so many rows, and so many columns down',
  example: 'move U1 3',
  takes: [{ shown: 'THING', offers: thingOffers }, { shown: 'ROWS' }, { shown: 'DOWN', optional: true }],
  run([name = '', rows = '', down = '0'], desk) {
    const ids = things([name], desk);
    if (!ids.ok) return ids;
    const by = [rows, down].map((w) => Number(w.replace('−', '-')));
    if (!by.every(Number.isInteger)) return refusal(rows, `"${rows} ${down}" are not whole rows: write for example: move ${name} 3.`);
    const done = desk.builder.move(ids.value, [by[0] ?? 0, by[1] ?? 0]);
    return done.ok ? said(`${name} moved.`) : done;
  },
};

const set: Command = {
  name: 'value',
  group: 'Building',
  means: 'give a part another value, with its unit',
  example: 'value R1 4k7',
  takes: [{ shown: 'PART', offers: partOffers((s) => s.kind.params.length > 0) }, { shown: 'VALUE' }],
  run([name = '', value = ''], desk) {
    const ids = things([name], desk);
    if (!ids.ok) return ids;
    const part = desk.session.standing?.plan.parts.find((p) => p.id === ids.value[0]);
    const spec = partKind(part?.kind ?? '')?.params[0];
    if (!part || !spec) return refusal(name, `${name} has no value that could be set.`);
    const read: Outcome<number | string> = spec.type === 'choice' ? { ok: true, value } : parseQuantity(value, spec.unit || undefined);
    const done = read.ok ? desk.builder.params(part.id, { [spec.name]: read.value }) : read;
    return done.ok ? said(`${part.id} is now ${value}.`) : done;
  },
};

const label: Command = {
  name: 'name',
  group: 'Building',
  means: 'call a part by a name of your own; no name takes it away',
  example: 'name D1 vent',
  takes: [
    { shown: 'PART', offers: partOffers() },
    { shown: 'NAME', optional: true, many: true },
  ],
  run([name = '', ...words], desk) {
    const ids = things([name], desk);
    if (!ids.ok) return ids;
    const done = desk.builder.label(ids.value[0] ?? '', words.join(' '));
    return done.ok
      ? said(words.length > 0 ? `${ids.value[0]} is called ${words.join(' ')}.` : `${ids.value[0]} has no name any more.`)
      : done;
  },
};

const colour: Command = {
  name: 'colour',
  group: 'Building',
  means: 'give a lead another colour',
  example: 'colour W1 red',
  takes: [
    { shown: 'LEAD', offers: leadOffers },
    { shown: 'COLOUR', offers: () => LEAD_COLOURS.map((word) => ({ word })) },
  ],
  run([name = '', to = ''], desk) {
    const ids = things([name], desk);
    const done = ids.ok ? desk.builder.recolour(ids.value, to) : ids;
    return done.ok ? said(`${name} is ${to}.`) : done;
  },
};

const repeat: Command = {
  name: 'repeat',
  group: 'Building',
  means: 'repeat what is chosen along the rows: how often, and every how many rows',
  example: 'repeat 7 3',
  takes: [{ shown: 'TIMES' }, { shown: 'ROWS' }],
  run([times = '', rows = ''], { builder }) {
    const done = builder.repeat(Number(times), Number(rows));
    return done.ok ? said(`Repeated ${times} times.`) : done;
  },
};

const store: Command = {
  name: 'store',
  group: 'Building',
  means: 'set bytes of a memory from an address on, as if it had come so programmed',
  example: 'store U1 003 5A',
  takes: [{ shown: 'MEMORY', offers: partOffers((s) => s.word !== undefined) }, { shown: 'ADDRESS' }, { shown: 'BYTES', many: true }],
  run([name = '', address = '', ...bytes], desk) {
    const memory = partNamed(name, desk, 'memory', (s) => s.word !== undefined);
    if (!memory.ok) return memory;
    const { id } = memory.value.part;
    return after(
      desk.builder.store(id, address, bytes.join(' ')),
      `${id} holds ${bytes.join(' ').toUpperCase()} at ${address.toUpperCase()}.`,
    );
  },
};

const choose: Command = {
  name: 'choose',
  group: 'Building',
  means: 'choose things, to do something with them; without a name, let them go',
  example: 'choose D1 R1',
  takes: [THINGS],
  run(words, desk) {
    const ids = words.length === 0 ? ({ ok: true, value: [] } as const) : things(words, desk);
    if (!ids.ok) return ids;
    desk.builder.select(ids.value);
    return said(`${desk.builder.chosenSays} chosen.`);
  },
};

const plain = (name: string, means: string, keys: Command['keys'], act: (desk: Desk) => Answer): Command => ({
  name,
  group: 'Building',
  means,
  takes: [],
  ...(keys ? { keys } : {}),
  run: (_, desk) => act(desk),
});

const after = (done: Outcome<unknown>, says: string): Answer => (done.ok ? said(says) : done);

export const BUILD_COMMANDS: readonly Command[] = [
  plain('shelf', 'open the shelf of parts, or fold it away', { B: 'shelf' }, (desk) => {
    const open = document.querySelector('bench-shelf')?.hasAttribute('hidden') ?? true;
    desk.openShelf(open);
    return said(open ? 'The shelf is open.' : 'The shelf is folded away.');
  }),
  place,
  lead,
  choose,
  move,
  onThings('turn', 'turn parts: chips end for end, others by a quarter', 'turned', { R: 'turn' }, (ids, { builder }) => builder.turn(ids)),
  onThings('flip', 'change round the two legs of a part', 'flipped', { F: 'flip' }, (ids, { builder }) => builder.flip(ids)),
  onThings(
    'take off',
    'take things off the bench, with what hangs on them',
    'taken off',
    { Delete: 'take off', Backspace: 'take off' },
    (ids, { builder }) => builder.remove(ids),
  ),
  onThings('copy', 'copy things, to be pasted', 'copied', { 'Mod+C': 'copy' }, (ids, { builder }) => builder.copy(ids)),
  onThings('cut', 'copy things and take them off', 'cut', { 'Mod+X': 'cut' }, (ids, { builder }) => {
    const copied = builder.copy(ids);
    return copied.ok ? builder.remove(ids) : copied;
  }),
  onThings('duplicate', 'copy things and set the copies down beside them', 'duplicated', { 'Mod+D': 'duplicate' }, (ids, { builder }) =>
    builder.duplicate(ids),
  ),
  {
    name: 'paste',
    group: 'Building',
    means: 'set down what was copied, at a tie point or where there is room',
    takes: [{ shown: 'TIE POINT', optional: true }],
    keys: { 'Mod+V': 'paste' },
    run: ([at], { builder }) => after(builder.paste(at), 'Pasted.'),
  },
  repeat,
  store,
  set,
  label,
  colour,
];
