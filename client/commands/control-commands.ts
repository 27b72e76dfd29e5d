/** What hands do to the bench, by name: switches, buttons, moving a wire's end, the meter. */
import type { PlacedPart } from '../state/bench-model.ts';
import type { Answer, Command, Desk, Slot } from './command.ts';
import { refusal, said } from './line.ts';
import { benchOf, partNamed, partOffers, wireOffers } from './name-lookup.ts';

const isSwitch = (s: PlacedPart) => Boolean(s.supply) || s.contacts.some((c) => !c.momentary);
const isButton = (s: PlacedPart) => s.contacts.some((c) => c.momentary);
const ON_OFF: Readonly<Record<string, boolean>> = { on: true, off: false, closed: true, open: false, '1': true, '0': false };

const called = ({ part }: PlacedPart) => (part.label ? `${part.id} (${part.label})` : part.id);
/** A supply has one switch and no contact. */
const polesOf = (s: PlacedPart) => (s.supply ? 1 : s.contacts.length);

function setAll(s: PlacedPart, figures: string, { session }: Desk): Answer {
  const poles = polesOf(s);
  if (figures.length !== poles)
    return refusal(figures, `${called(s)} has ${poles} poles and "${figures}" has ${figures.length} figures. Write one 0 or 1 a pole.`);
  const now = session.readings?.hands[s.part.id] ?? [];
  for (const [pole, c] of [...figures].entries())
    if ((now[pole] ?? false) !== (c === '1')) session.act({ do: 'set', part: s.part.id, pole, closed: c === '1' });
  return said(`${called(s)} set to ${figures}.`);
}

const toSet: Command = {
  name: 'switch',
  group: 'Hands',
  means: 'set a supply, a pole of a switch, or all its poles',
  example: 'switch S1 3 on',
  takes: [
    { shown: 'SWITCH', offers: partOffers(isSwitch) },
    { shown: 'POLE', optional: true, offers: poleOffers },
    { shown: 'on or off', optional: true, offers: () => [{ word: 'on' }, { word: 'off' }] },
  ],
  run([name = '', ...rest], desk) {
    const found = partNamed(name, desk, 'switch', isSwitch);
    if (!found.ok) return found;
    const s = found.value;
    const [first = '', second] = rest;
    const poles = polesOf(s);
    if (second === undefined && /^[01]{2,}$/.test(first)) return setAll(s, first, desk);
    // one word: a pole to be thrown, or how to throw the only one
    const single = second === undefined && poles === 1 && first !== '1';
    const onOff = single ? first : (second ?? '');
    const way = ON_OFF[onOff.toLowerCase()];
    const pole = single ? 1 : poleNumber(s, first);
    if (Number.isNaN(pole))
      return refusal(first, `${called(s)} has ${poles} poles: write its number, then on or off, for example: switch ${s.part.id} 1 on.`);
    if (pole < 1 || pole > poles)
      return refusal(first, `${called(s)} has no pole ${first}: it has ${poles === 1 ? 'one' : `1 to ${poles}`}.`);
    const now = desk.session.readings?.hands[s.part.id]?.[pole - 1] ?? false;
    if (way === undefined && onOff !== '') return refusal(onOff, `"${onOff}" is neither on nor off.`);
    const closed = way ?? !now;
    desk.session.act({ do: 'set', part: s.part.id, pole: pole - 1, closed });
    return said(`${called(s)}${poles > 1 ? ` pole ${pole}` : ''} ${closed ? 'on' : 'off'}.`);
  },
};

/** '3', or the name that the wanted table gives to the line that the pole sets. */
function poleNumber(s: PlacedPart, word: string): number {
  const named = s.contacts.find((c) => c.name?.toLowerCase() === word.toLowerCase());
  return named ? named.pole + 1 : /^\d+$/.test(word) ? Number(word) : Number.NaN;
}

function poleOffers(desk: Desk, [name = '']: readonly string[]) {
  const found = partNamed(name, desk, 'switch', isSwitch);
  if (!found.ok) return [];
  const ways = polesOf(found.value) === 1 ? [{ word: 'on' }, { word: 'off' }] : [];
  return [...ways, ...found.value.contacts.map((c) => ({ word: String(c.pole + 1), means: c.name ?? `pole ${c.pole + 1}` }))];
}

const BUTTON: Slot = { shown: 'BUTTON', offers: partOffers(isButton) };
const onButton = (name: string, means: string, done: string, acts: readonly ('press' | 'release')[]): Command => ({
  name,
  group: 'Hands',
  means,
  takes: [BUTTON],
  run([word = ''], desk) {
    const found = partNamed(word, desk, 'button', isButton);
    if (!found.ok) return found;
    for (const act of acts) desk.session.act({ do: act, part: found.value.part.id });
    return said(`${called(found.value)} ${done}.`);
  },
});

const moveEnd: Command = {
  name: 're-end',
  group: 'Building',
  means: 'pull one end of a wire and push it into another tie point',
  example: 're-end W12 to b20',
  takes: [
    { shown: 'WIRE', offers: wireOffers },
    { shown: 'from or to', offers: () => [{ word: 'from' }, { word: 'to' }] },
    { shown: 'TIE POINT' },
  ],
  run([name = '', end = '', point = ''], desk) {
    const bench = benchOf(desk);
    if (!bench.ok) return bench;
    const wire = bench.value.plan.wires.find((l) => l.id.toLowerCase() === name.toLowerCase());
    if (!wire) return refusal(name, `There is no wire ${name} on this bench.`);
    if (end !== 'from' && end !== 'to')
      return refusal(end, `"${end}" is no end of a wire: ${wire.id} goes from ${wire.from} to ${wire.to}. Write from or to.`);
    desk.session.act({ do: 'move-wire', wire: wire.id, end, point });
    return said(`${wire.id} ${end} ${point}.`);
  },
};

const METERS = [
  { word: 'volts', means: 'measure volts at a tie point' },
  { word: 'amps', means: 'measure amps through a leg' },
  { word: 'level', means: 'probe the level at a tie point, and count pulses' },
  { word: 'off', means: 'put the meter away' },
];

const meter: Command = {
  name: 'meter',
  group: 'Hands',
  means: 'take the meter in the hand',
  example: 'meter volts a12',
  takes: [
    { shown: 'volts, amps, level or off', optional: true, few: true, offers: () => METERS },
    { shown: 'PLACE', optional: true },
    { shown: 'AGAINST', optional: true },
  ],
  async run([what = '', place, against], desk) {
    if (what === 'off') {
      await desk.measure(false);
      return said('The meter is put away.');
    }
    if (what !== '' && what !== 'volts' && what !== 'amps' && what !== 'level')
      return refusal(what, `"${what}" cannot be measured here: write volts, amps, level or off.`);
    const panel = await desk.measure(true);
    if (what && panel) panel.choose(what);
    if (place === undefined || !panel) return said('The meter is in the hand.');
    const problem = panel.put(place, against);
    return problem ? refusal(place, problem) : said(`The meter measures ${what} at ${place}.`);
  },
};

export const HAND_COMMANDS: readonly Command[] = [
  toSet,
  onButton('press', 'press a button and let go of it', 'pressed', ['press', 'release']),
  onButton('hold', 'press a button and stay on it', 'held down', ['press']),
  onButton('let go', 'let go of a button that is held', 'let go', ['release']),
  meter,
  moveEnd,
];
