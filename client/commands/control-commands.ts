/** What works the bench, by name: switches, buttons, moving a wire's end, the meter. */
import { failed } from '../../sim-core/index.ts';
import type { PlacedPart } from '../state/bench-model.ts';
import type { Answer, Command, CommandContext, Slot } from './command.ts';
import { said } from './line.ts';
import { benchOf, partNamed, partOffers, poleNamed, wireOffers } from './name-lookup.ts';

const isSwitch = (s: PlacedPart) => Boolean(s.supply) || s.contacts.some((c) => !c.momentary);
const isButton = (s: PlacedPart) => s.contacts.some((c) => c.momentary);
const ON_OFF: Readonly<Record<string, boolean>> = { on: true, off: false, closed: true, open: false, '1': true, '0': false };

const called = ({ part }: PlacedPart) => (part.label ? `${part.id} (${part.label})` : part.id);
/** A supply has one switch and no contact. */
const polesOf = (s: PlacedPart) => (s.supply ? 1 : s.contacts.length);

function setAll(s: PlacedPart, figures: string, { session }: CommandContext): Answer {
  const poles = polesOf(s);
  if (figures.length !== poles)
    return failed('command/bad-word', figures, `${called(s)} has ${poles} poles. Write ${poles} digits, not ${figures.length}.`);
  const now = session.readings?.switches[s.part.id] ?? [];
  for (const [pole, c] of [...figures].entries())
    if ((now[pole] ?? false) !== (c === '1')) session.act({ do: 'set', part: s.part.id, pole, closed: c === '1' });
  return said(`${called(s)} set to ${figures}.`);
}

const toSet: Command = {
  name: 'switch',
  synonyms: ['flip switch', 'toggle', 'turn on', 'power', 'power on'],
  group: 'Controls',
  means: 'set the supply, one pole of a switch, or all its poles',
  example: 'switch S1 3 on',
  takes: [
    { shown: 'SWITCH', offers: partOffers(isSwitch) },
    { shown: 'POLE', optional: true, offers: poleOffers },
    { shown: 'on or off', optional: true, offers: () => [{ word: 'on' }, { word: 'off' }] },
  ],
  run([name = '', first = '', second], context) {
    const found = partNamed(name, context, 'switch', isSwitch);
    if (!found.ok) return found;
    const s = found.value;
    const poles = polesOf(s);
    if (second === undefined && /^[01]{2,}$/.test(first)) return setAll(s, first, context);
    // one word: a pole to be switched, or how to set the only one
    const single = second === undefined && poles === 1 && first !== '1';
    const onOff = single ? first : (second ?? '');
    const way = ON_OFF[onOff.toLowerCase()];
    const pole = single ? 1 : poleNamed(s, first);
    if (Number.isNaN(pole))
      return failed(
        'command/missing-word',
        first,
        `${called(s)} has ${poles} poles. Write a pole, then on or off, for example: switch ${s.part.id} 1 on.`,
      );
    if (pole < 1 || pole > poles)
      return failed('command/unknown-name', first, `${called(s)} has no pole ${first}: it has ${poles === 1 ? 'one' : `1 to ${poles}`}.`);
    const now = context.session.readings?.switches[s.part.id]?.[pole - 1] ?? false;
    if (way === undefined && onOff !== '') return failed('command/bad-word', onOff, `"${onOff}" is neither on nor off.`);
    const closed = way ?? !now;
    context.session.act({ do: 'set', part: s.part.id, pole: pole - 1, closed });
    return said(`${called(s)}${poles > 1 ? ` pole ${pole}` : ''} ${closed ? 'on' : 'off'}.`);
  },
};

function poleOffers(context: CommandContext, [name = '']: readonly string[]) {
  const found = partNamed(name, context, 'switch', isSwitch);
  if (!found.ok) return [];
  const ways = polesOf(found.value) === 1 ? [{ word: 'on' }, { word: 'off' }] : [];
  return [...ways, ...found.value.contacts.map((c) => ({ word: String(c.pole + 1), means: c.name ?? `pole ${c.pole + 1}` }))];
}

const BUTTON: Slot = { shown: 'BUTTON', offers: partOffers(isButton) };
interface ButtonAction extends Pick<Command, 'name' | 'synonyms' | 'means'> {
  readonly done: string;
  readonly acts: readonly ('press' | 'release')[];
}
const onButton = ({ done, acts, ...what }: ButtonAction): Command => ({
  ...what,
  group: 'Controls',
  takes: [BUTTON],
  run([word = ''], context) {
    const found = partNamed(word, context, 'button', isButton);
    if (!found.ok) return found;
    for (const act of acts) context.session.act({ do: act, part: found.value.part.id });
    return said(`${called(found.value)} ${done}.`);
  },
});

const moveEnd: Command = {
  name: 'move end',
  synonyms: ['reconnect', 're-end', 'replug'],
  group: 'Building',
  means: 'move one end of a wire to another hole',
  example: 'move end W1 from +j8 to +j9',
  takes: [
    { shown: 'WIRE', offers: wireOffers },
    { shown: 'HOLE', before: ['from'], offers: wireEndOffers },
    { shown: 'HOLE', before: ['to'] },
  ],
  run([name = '', from = '', to = ''], context) {
    const bench = benchOf(context);
    if (!bench.ok) return bench;
    const wire = bench.value.plan.wires.find((l) => l.id.toLowerCase() === name.toLowerCase());
    if (!wire) return failed('command/unknown-name', name, `No wire ${name} on this bench.`);
    const end = (['from', 'to'] as const).find((e) => wire[e].toLowerCase() === from.toLowerCase());
    if (!end) return failed('command/unknown-name', from, `${wire.id} has no end at ${from}. It goes from ${wire.from} to ${wire.to}.`);
    context.session.act({ do: 'move-wire', wire: wire.id, end, point: to });
    return said(`${wire.id} moved from ${wire[end]} to ${to}.`);
  },
};

function wireEndOffers({ session }: CommandContext, [name = '']: readonly string[]) {
  const wire = session.model?.plan.wires.find((w) => w.id.toLowerCase() === name.toLowerCase());
  return wire ? [{ word: wire.from }, { word: wire.to }] : [];
}

const METERS = [
  { word: 'volts', means: 'measure the voltage at a hole' },
  { word: 'amps', means: 'measure the current through a pin' },
  { word: 'level', means: 'probe the level at a hole, and count pulses' },
  { word: 'off', means: 'remove the meter' },
];

const meter: Command = {
  name: 'meter',
  synonyms: ['multimeter', 'dmm', 'measure', 'probe', 'logic probe', 'voltmeter', 'ammeter'],
  group: 'Controls',
  means: 'measure with the meter',
  example: 'meter volts at a12',
  takes: [
    { shown: 'volts, amps, level or off', optional: true, few: true, offers: () => METERS },
    { shown: 'HOLE or PIN', before: ['at', 'through'], optional: true },
    { shown: 'HOLE', before: ['against'], optional: true },
  ],
  async run([what = '', place, against], context) {
    if (what === 'off') {
      await context.measure(false);
      return said('Meter removed.');
    }
    if (what !== '' && what !== 'volts' && what !== 'amps' && what !== 'level')
      return failed('command/bad-word', what, `The meter cannot measure "${what}". Write volts, amps, level or off.`);
    const panel = await context.measure(true);
    if (what && panel) panel.choose(what);
    if (place === undefined || !panel) return said('Meter ready. Touch a hole with the red probe.');
    const problem = panel.put(place, against);
    return problem ? failed('edit/unknown-hole', place, problem) : said(`The meter measures ${what} at ${place}.`);
  },
};

const removeMeter: Command = {
  name: 'delete meter',
  synonyms: [],
  group: 'Controls',
  means: 'delete one meter from the bench',
  takes: [{ shown: 'METER', offers: ({ session }) => (session.model?.plan.meters ?? []).map((m) => ({ word: m.id, means: m.measures })) }],
  run([word = ''], { session }) {
    const meters = session.model?.plan.meters ?? [];
    const index = meters.findIndex((m) => m.id.toLowerCase() === word.toLowerCase());
    const item = meters[index];
    if (!item) return failed('command/unknown-name', word, `No meter ${word} on this bench.`);
    session.edit({ op: 'remove', list: 'meters', item, index });
    return said(`${item.id} deleted.`);
  },
};

export const CONTROL_COMMANDS: readonly Command[] = [
  toSet,
  onButton({
    name: 'press',
    synonyms: ['push', 'click', 'tap'],
    means: 'press a button and release it',
    done: 'pressed',
    acts: ['press', 'release'],
  }),
  onButton({
    name: 'hold',
    synonyms: ['hold down', 'keep pressed'],
    means: 'press a button and keep it down',
    done: 'held down',
    acts: ['press'],
  }),
  onButton({ name: 'release', synonyms: ['let go'], means: 'release a button that is held', done: 'released', acts: ['release'] }),
  meter,
  removeMeter,
  moveEnd,
];
