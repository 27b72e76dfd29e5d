/** Building by name: the shelf, parts and wires put on the bench, and what they are given: a value, a name, a colour, bytes. */
import { type Outcome, parseQuantity, partKind } from '../core.ts';
import { WIRE_COLOURS } from '../edit/builder.ts';
import { partGroups, partOfferText } from '../edit/part-search.ts';
import type { Command, Desk } from './command.ts';
import { afterWord, refusal, said } from './line.ts';
import { partNamed, partOffers, thingsNamed, wireOffers } from './name-lookup.ts';

const shelf: Command = {
  name: 'shelf',
  group: 'Building',
  means: 'open the shelf of parts, or fold it away',
  takes: [],
  keys: { B: 'shelf' },
  run(_, desk) {
    const open = document.querySelector('bench-shelf')?.hasAttribute('hidden') ?? true;
    desk.openShelf(open);
    return said(open ? 'The shelf is open.' : 'The shelf is folded away.');
  },
};

const place: Command = {
  name: 'place',
  group: 'Building',
  means: 'put a part from the shelf on the bench: what it is, then where',
  example: 'place 4k7 resistor e14',
  takes: [
    { shown: 'PART', offers: () => partGroups('').flatMap((s) => s.wares.map((w) => ({ word: w.kind.id, means: partOfferText(w) }))) },
    { shown: 'words and TIE POINTS', optional: true, many: true },
  ],
  run(words, { builder }) {
    const points = words.filter((w) => POINT.test(w));
    const search = words.filter((w) => !POINT.test(w)).join(' ');
    const byId = partKind(search.toLowerCase());
    const ware = partGroups(search)[0]?.wares[0];
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

const wire: Command = {
  name: 'wire',
  group: 'Building',
  means: 'lay a wire from one tie point, terminal or leg to another',
  example: 'wire PS1.+ +j1 red',
  takes: [{ shown: 'FROM' }, { shown: 'TO' }, { shown: 'COLOUR', optional: true, offers: () => WIRE_COLOURS.map((word) => ({ word })) }],
  run([from = '', to = '', colour], desk) {
    if (colour !== undefined) desk.builder.wireColour = colour.toLowerCase();
    const done = desk.builder.wire(byName(from, desk), byName(to, desk));
    if (!done.ok) return done;
    return said(done.value.op === 'add-wire' ? `${done.value.wire.id} joins ${done.value.wire.from} and ${done.value.wire.to}.` : '');
  },
};

/** A leg by its pin's name, 'U1.A0', as the number that the bench knows it by. */
function byName(typed: string, { session }: Desk): string {
  const [part = '', pin] = typed.split('.');
  const s = session.standing?.specimens.find((x) => x.part.id.toLowerCase() === part.toLowerCase());
  const named = s?.legs.find((l) => l.pin.name.toLowerCase() === pin?.toLowerCase());
  return s && named ? `${s.part.id}.${named.pin.pin}` : typed;
}

const set: Command = {
  name: 'value',
  group: 'Building',
  means: 'give a part another value, with its unit',
  example: 'value R1 4k7',
  takes: [{ shown: 'PART', offers: partOffers((s) => s.kind.params.length > 0) }, { shown: 'VALUE' }],
  run([name = '', value = ''], desk) {
    const ids = thingsNamed([name], desk);
    if (!ids.ok) return ids;
    const part = desk.session.standing?.plan.parts.find((p) => p.id === ids.value[0]);
    const spec = partKind(part?.kind ?? '')?.params[0];
    if (!part || !spec) return refusal(name, `${name} has no value that could be set.`);
    const read: Outcome<number | string> = spec.type === 'choice' ? { ok: true, value } : parseQuantity(value, spec.unit || undefined);
    const done = read.ok ? desk.builder.params(part.id, { [spec.name]: read.value }) : read;
    return afterWord(done, `${part.id} is now ${value}.`);
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
    const ids = thingsNamed([name], desk);
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
  means: 'give a wire another colour',
  example: 'colour W1 red',
  takes: [
    { shown: 'WIRE', offers: wireOffers },
    { shown: 'COLOUR', offers: () => WIRE_COLOURS.map((word) => ({ word })) },
  ],
  run([name = '', to = ''], desk) {
    const ids = thingsNamed([name], desk);
    const done = ids.ok ? desk.builder.recolour(ids.value, to) : ids;
    return afterWord(done, `${name} is ${to}.`);
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
    return afterWord(
      desk.builder.store(id, address, bytes.join(' ')),
      `${id} holds ${bytes.join(' ').toUpperCase()} at ${address.toUpperCase()}.`,
    );
  },
};

export const BUILD_COMMANDS: readonly Command[] = [shelf, place, wire, store, set, label, colour];
