/** Building by name: Parts, parts and wires put on the bench, and what they are given: a value, a name, a colour, bytes. */
import { done, failed, type Outcome, parseQuantity, partKind, siFormat } from '../../sim-core/index.ts';
import { WIRE_COLOURS } from '../edit/builder.ts';
import { insertText } from '../edit/insert-text.ts';
import { partGroups, partOfferText } from '../edit/part-search.ts';
import type { PlacedPart } from '../state/bench-model.ts';
import type { Command, CommandContext } from './command.ts';
import { afterWord, said } from './line.ts';
import { itemsNamed, partNamed, partOffers, poleNamed, wireOffers } from './name-lookup.ts';

const parts: Command = {
  name: 'parts',
  synonyms: ['open parts', 'close parts', 'components'],
  group: 'Building',
  means: 'open or close Parts',
  takes: [],
  keys: { B: 'parts' },
  run(_, context) {
    const open = document.querySelector('parts-panel')?.hasAttribute('hidden') ?? true;
    context.openParts(open);
    return said(open ? 'Parts opened.' : 'Parts closed.');
  },
};

const place: Command = {
  name: 'place',
  synonyms: ['add', 'put', 'insert'],
  group: 'Building',
  means: 'put a part on the bench',
  example: 'place 4k7 resistor at e14',
  takes: [
    {
      shown: 'PART',
      many: 'text',
      offers: () => partGroups('').flatMap((s) => s.offers.map((w) => ({ word: w.kind.id, means: partOfferText(w) }))),
    },
    { shown: 'HOLE', before: ['at', 'from'], optional: true },
    { shown: 'HOLE', before: ['to'], optional: true },
  ],
  run([search = '', at, to], { builder }) {
    const byId = partKind(search.toLowerCase());
    const offer = partGroups(search)[0]?.offers[0];
    const placing = byId ? { kind: byId.id } : offer?.placing;
    if (!placing) return failed('command/unknown-name', search, `No part matches "${search}". Try what it does, a value, or a pin count.`);
    const done = builder.place({ ...placing, ...(at ? { at } : {}), ...(to ? { to } : {}) });
    if (!done.ok) return done;
    return said(insertText(done.value));
  },
};

const wire: Command = {
  name: 'wire',
  synonyms: ['jumper', 'connect', 'lead'],
  group: 'Building',
  means: 'connect two pins, parts, rails or holes; free holes are chosen',
  example: 'wire U1.D3 LED4',
  takes: [
    { shown: 'PIN, PART, RAIL or HOLE', pin: true },
    { shown: 'PIN, PART, RAIL or HOLE', before: ['to'], bare: true, pin: true },
    { shown: 'COLOUR', optional: true, offers: () => WIRE_COLOURS.map((word) => ({ word })) },
  ],
  run([from = '', to = '', colour], context) {
    const done = context.builder.wire(byName(from, context), byName(to, context), colour?.toLowerCase());
    if (!done.ok) return done;
    return said(insertText(done.value));
  },
};

/** A leg by its pin's name, 'U1.A0' or 'U1 pin 9', as the number that the bench knows it by; a part by what its owner calls it, by its id. */
function byName(typed: string, { session }: CommandContext): string {
  const [part = '', pin] = typed.replace(/\s+pin\s+/i, '.').split('.');
  const all = session.model?.specimens ?? [];
  const is = (word: string | undefined) => word?.toLowerCase() === part.toLowerCase();
  const s = all.find((x) => is(x.part.id)) ?? all.find((x) => is(x.part.label));
  if (!s) return typed;
  const named = s.legs.find((l) => l.pin.name.toLowerCase() === pin?.toLowerCase());
  return pin === undefined ? s.part.id : `${s.part.id}.${named?.pin.pin ?? pin}`;
}

const layWires: Command = {
  name: 'lay wires',
  synonyms: ['wire by clicks', 'jumper wire', 'hook-up wire', 'hookup wire', 'patch lead'],
  group: 'Building',
  means: 'lay wires, one after another: click a hole, then the other',
  takes: [],
  run(_, { builder }) {
    builder.layWires();
    return said('Click the first hole of a wire.');
  },
};

const set: Command = {
  name: 'set',
  synonyms: ['value', 'change', 'colour', 'color'],
  group: 'Building',
  means: 'give a part another value, or a wire another colour',
  example: 'set R1 to 4k7',
  takes: [
    { shown: 'PART or WIRE', offers: (context) => [...partOffers((s) => s.kind.params.length > 0)(context), ...wireOffers(context)] },
    { shown: 'VALUE or COLOUR', before: ['to'], offers: (context, [name = '']) => valueOffers(context, name) },
  ],
  run([name = '', value = ''], context) {
    const ids = itemsNamed([name], context);
    if (!ids.ok) return ids;
    const [id = ''] = ids.value;
    const { parts: all = [], wires = [] } = context.session.model?.plan ?? {};
    if (wires.some((w) => w.id === id)) return afterWord(context.builder.recolour([id], value.toLowerCase()), `${id} is now ${value}.`);
    const part = all.find((p) => p.id === id);
    const spec = partKind(part?.kind ?? '')?.params[0];
    if (!part || !spec) return failed('command/not-possible', name, `${id} has no value to set.`);
    const read: Outcome<number | string> = spec.type !== 'number' ? done(value) : parseQuantity(value, spec.unit || undefined);
    const made = read.ok ? context.builder.params(part.id, { [spec.name]: read.value }) : read;
    const shown = spec.type === 'number' && read.ok ? siFormat(Number(read.value), spec.unit, 6) : value;
    return afterWord(made, `${part.id} is now ${shown}.`);
  },
};

/** The colours of a wire, or the choices of a part that has them. */
function valueOffers({ session }: CommandContext, name: string) {
  const plan = session.model?.plan;
  const id = name.toLowerCase();
  if (plan?.wires.some((w) => w.id.toLowerCase() === id)) return WIRE_COLOURS.map((word) => ({ word }));
  const [spec] = partKind(plan?.parts.find((p) => p.id.toLowerCase() === id)?.kind ?? '')?.params ?? [];
  return spec?.type === 'choice' ? spec.choices.map((word) => ({ word })) : [];
}

const call: Command = {
  name: 'call',
  synonyms: ['name', 'label'],
  group: 'Building',
  means: 'give a part or a pole of a switch a name of your own; without a name, remove it',
  example: 'call LED1 vent',
  takes: [
    { shown: 'PART or SWITCH.POLE', offers: (context) => [...partOffers()(context), ...poleOffers(context)] },
    { shown: 'NAME', optional: true, many: 'text' },
  ],
  run([word = '', name = ''], context) {
    const [, part = '', pole = ''] = /^(.+)\.(.+)$/.exec(word) ?? [];
    if (part !== '') return callPole(part, pole, name, context);
    const ids = itemsNamed([word], context);
    if (!ids.ok) return ids;
    const [id = ''] = ids.value;
    return afterWord(context.builder.label(id, name), isCalled(id, name));
  },
};

const isCalled = (what: string, name: string): string => (name ? `${what} is called ${name}.` : `${what} has no name.`);

function callPole(part: string, pole: string, name: string, context: CommandContext): Outcome<string> {
  const found = partNamed(part, context, 'switch', hasPoles);
  if (!found.ok) return found;
  const {
    part: { id },
    contacts,
  } = found.value;
  const number = poleNamed(found.value, pole);
  if (!contacts.some((c) => c.pole === number - 1))
    return failed(
      'command/unknown-name',
      pole,
      `${id} has no pole ${pole}. It has ${contacts.length === 1 ? 'one pole' : `poles 1 to ${contacts.length}`}.`,
    );
  return afterWord(context.builder.poleName(id, number - 1, name), isCalled(`${id} pole ${number}`, name));
}

const hasPoles = (s: PlacedPart) => s.contacts.some((c) => !c.momentary);

const poleOffers = ({ session }: CommandContext) =>
  (session.model?.specimens ?? [])
    .filter(hasPoles)
    .flatMap((s) => s.contacts.map((c) => ({ word: `${s.part.id}.${c.pole + 1}`, means: c.name ?? `pole ${c.pole + 1}` })));

const store: Command = {
  name: 'store',
  synonyms: ['write bytes', 'set bytes'],
  group: 'Building',
  means: 'set bytes in a memory, as a programmer would',
  example: 'store 5A in U1 at 003',
  takes: [
    { shown: 'BYTES', many: 'text' },
    { shown: 'MEMORY', before: ['in', 'to'], offers: partOffers((s) => s.word !== undefined) },
    { shown: 'ADDRESS', before: ['at', 'from'] },
  ],
  run([bytes = '', name = '', address = ''], context) {
    const memory = partNamed(name, context, 'memory', (s) => s.word !== undefined);
    if (!memory.ok) return memory;
    const { id } = memory.value.part;
    return afterWord(context.builder.store(id, address, bytes), `${id} holds ${bytes.toUpperCase()} at ${address.toUpperCase()}.`);
  },
};

export const BUILD_COMMANDS: readonly Command[] = [parts, place, wire, layWires, store, set, call];
