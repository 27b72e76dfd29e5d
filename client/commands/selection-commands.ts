/** What is done to things by name: they are chosen, moved, turned, copied, repeated and taken off. Without a name, what is chosen is meant. */
import type { Outcome } from '../core.ts';
import type { Command, Desk, Offer, Slot } from './command.ts';
import { afterWord, refusal, said } from './line.ts';
import { partOffers, thingsNamed, wireOffers } from './name-lookup.ts';

const thingOffers = (desk: Desk): readonly Offer[] => [...partOffers()(desk), ...wireOffers(desk)];
const THINGS: Slot = { shown: 'THING', optional: true, many: true, offers: thingOffers };

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
    const ids = thingsNamed(words, desk);
    if (!ids.ok) return ids;
    return afterWord(act(ids.value, desk), `${ids.value.join(', ')} ${done}.`);
  },
});

const choose: Command = {
  name: 'choose',
  group: 'Building',
  means: 'choose things, to do something with them; without a name, let them go',
  example: 'choose D1 R1',
  takes: [THINGS],
  run(words, desk) {
    const ids = words.length === 0 ? ({ ok: true, value: [] } as const) : thingsNamed(words, desk);
    if (!ids.ok) return ids;
    desk.builder.select(ids.value);
    return said(`${desk.builder.chosenSays} chosen.`);
  },
};

const move: Command = {
  name: 'move',
  group: 'Building',
  means: 'move a thing so many rows, and so many columns down',
  example: 'move U1 3',
  takes: [{ shown: 'THING', offers: thingOffers }, { shown: 'ROWS' }, { shown: 'DOWN', optional: true }],
  run([name = '', rows = '', down = '0'], desk) {
    const ids = thingsNamed([name], desk);
    if (!ids.ok) return ids;
    const by = [rows, down].map((w) => Number(w.replace('−', '-')));
    if (!by.every(Number.isInteger)) return refusal(rows, `"${rows} ${down}" are not whole rows: write for example: move ${name} 3.`);
    return afterWord(desk.builder.move(ids.value, [by[0] ?? 0, by[1] ?? 0]), `${name} moved.`);
  },
};

const repeat: Command = {
  name: 'repeat',
  group: 'Building',
  means: 'repeat what is chosen along the rows: how often, and every how many rows',
  example: 'repeat 7 3',
  takes: [{ shown: 'TIMES' }, { shown: 'ROWS' }],
  run([times = '', rows = ''], { builder }) {
    return afterWord(builder.repeat(Number(times), Number(rows)), `Repeated ${times} times.`);
  },
};

export const THING_COMMANDS: readonly Command[] = [
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
    run: ([at], { builder }) => afterWord(builder.paste(at), 'Pasted.'),
  },
  repeat,
];
