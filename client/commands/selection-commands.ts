/** What is done to parts and wires by name: select, shift, rotate, copy, repeat, delete. Without a name, the selection is meant. */
import { failed, type Outcome } from '../../sim-core/index.ts';
import type { Command, CommandContext, Offer, Slot } from './command.ts';
import { afterWord, said } from './line.ts';
import { itemsNamed, partOffers, wireOffers } from './name-lookup.ts';

const itemOffers = (context: CommandContext): readonly Offer[] => [...partOffers()(context), ...wireOffers(context)];
const ITEMS: Slot = { shown: 'PART or WIRE', optional: true, many: 'each', offers: itemOffers };

interface ItemAction extends Pick<Command, 'name' | 'synonyms' | 'means' | 'keys'> {
  /** "R1 deleted." */
  readonly done: string;
  act(ids: readonly string[], context: CommandContext): Outcome<unknown>;
  /** the same for the part that is being placed */
  placing?(context: CommandContext): void;
}

/** An action on the named or selected parts and wires. */
const onItems = ({ done, act, placing, ...what }: ItemAction): Command => ({
  ...what,
  group: 'Building',
  example: `${what.name} R1`,
  takes: [ITEMS],
  run(words, context) {
    if (placing && context.builder.toPlace && words.every((w) => w === undefined)) {
      placing(context);
      return said(`The part to be placed is ${done}.`);
    }
    const ids = itemsNamed(words, context);
    if (!ids.ok) return ids;
    return afterWord(act(ids.value, context), `${ids.value.join(', ')} ${done}.`);
  },
});

const select: Command = {
  name: 'select',
  synonyms: ['choose', 'pick'],
  group: 'Building',
  means: 'select parts and wires',
  example: 'select LED1 R1',
  takes: [{ shown: 'PART or WIRE', many: 'each', offers: itemOffers }],
  run(words, context) {
    const ids = itemsNamed(words, context);
    if (!ids.ok) return ids;
    context.builder.select(ids.value);
    return said(`Selected: ${context.builder.chosenSays}.`);
  },
};

const selectAll: Command = {
  name: 'select all',
  synonyms: ['choose all', 'all'],
  group: 'Building',
  means: 'select every part and wire',
  keys: { 'Mod+A': 'select all' },
  takes: [],
  run(_, { session, builder }) {
    const { parts = [], wires = [] } = session.model?.plan ?? {};
    builder.select([...parts, ...wires].map(({ id }) => id));
    return said(`Selected: ${parts.length} parts, ${wires.length} wires.`);
  },
};

const deselect: Command = {
  name: 'deselect',
  synonyms: ['select none', 'clear selection', 'unselect'],
  group: 'Building',
  means: 'select nothing',
  takes: [],
  run(_, context) {
    context.builder.select([]);
    return said('Nothing selected.');
  },
};

const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  rows: [1, 0],
  row: [1, 0],
  right: [1, 0],
  left: [-1, 0],
  down: [0, 1],
  up: [0, -1],
};

const shift: Command = {
  name: 'shift',
  synonyms: ['move', 'move board', 'shift board', 'nudge'],
  group: 'Building',
  means: 'move a part, wire or board by so many holes',
  example: 'shift U1 3 rows',
  takes: [
    { shown: 'PART, WIRE or BOARD', offers: itemOffers },
    { shown: 'HOW MANY' },
    {
      shown: 'rows, left, up or down',
      optional: true,
      offers: () => ['rows', 'left', 'up', 'down'].map((word) => ({ word, means: word === 'rows' ? 'to the right' : '' })),
    },
  ],
  run([name = '', far = '', way = 'rows'], context) {
    const ids = itemsNamed([name], context);
    if (!ids.ok) return ids;
    const by = WAYS[way.toLowerCase()];
    if (!by) return failed('command/bad-word', way, `"${way}" is not a direction. Write rows, left, up or down.`);
    const count = Number(far.replace('−', '-'));
    if (far === '' || !Number.isInteger(count))
      return failed('command/bad-word', far, `"${far}" is not a whole number. Example: shift ${name} 3 rows`);
    return afterWord(context.builder.move(ids.value, [by[0] * count, by[1] * count]), `${ids.value.join(', ')} shifted.`);
  },
};

const repeat: Command = {
  name: 'repeat',
  synonyms: ['array'],
  group: 'Building',
  means: 'repeat the selection along the rows',
  example: 'repeat 7 every 3',
  takes: [{ shown: 'TIMES' }, { shown: 'ROWS', before: ['every'] }],
  run([times = '', rows = ''], { builder }) {
    return afterWord(builder.repeat(Number(times), Number(rows)), `Repeated ${times} times.`);
  },
};

const paste: Command = {
  name: 'paste',
  synonyms: [],
  group: 'Building',
  means: 'place what was copied, at a hole or where there is room',
  example: 'paste at e14',
  takes: [{ shown: 'HOLE', before: ['at'], optional: true }],
  keys: { 'Mod+V': 'paste' },
  run: ([at], { builder }) => afterWord(builder.paste(at), 'Pasted.'),
};

export const SELECTION_COMMANDS: readonly Command[] = [
  select,
  selectAll,
  deselect,
  shift,
  onItems({
    name: 'rotate',
    synonyms: ['rotate right', 'turn', 'turn right'],
    means: 'rotate a part clockwise: chips end for end, others by a quarter turn',
    done: 'rotated',
    keys: { '>': 'rotate' },
    act: (ids, { builder }) => builder.rotate(1, ids),
    placing: ({ builder }) => builder.turnToPlace(1),
  }),
  onItems({
    name: 'rotate left',
    synonyms: ['turn left', 'rotate back'],
    means: 'rotate a part anticlockwise',
    done: 'rotated',
    keys: { '<': 'rotate left' },
    act: (ids, { builder }) => builder.rotate(-1, ids),
    placing: ({ builder }) => builder.turnToPlace(-1),
  }),
  onItems({
    name: 'flip',
    synonyms: ['swap legs', 'reverse', 'mirror'],
    means: 'swap the two legs of a part',
    done: 'flipped',
    keys: { '~': 'flip' },
    act: (ids, { builder }) => builder.flip(ids),
    placing: ({ builder }) => builder.flipToPlace(),
  }),
  onItems({
    name: 'delete',
    synonyms: ['remove', 'take off', 'erase', 'del', 'rm'],
    means: 'delete parts and wires, with the wires on them',
    done: 'deleted',
    keys: { Delete: 'delete', Backspace: 'delete' },
    act: (ids, { builder }) => builder.remove(ids),
  }),
  onItems({
    name: 'copy',
    synonyms: [],
    means: 'copy parts and wires',
    done: 'copied',
    keys: { 'Mod+C': 'copy' },
    act: (ids, { builder }) => builder.copy(ids),
  }),
  onItems({
    name: 'cut',
    synonyms: [],
    means: 'copy parts and wires, then delete them',
    done: 'cut',
    keys: { 'Mod+X': 'cut' },
    act: (ids, { builder }) => {
      const copied = builder.copy(ids);
      return copied.ok ? builder.remove(ids) : copied;
    },
  }),
  onItems({
    name: 'duplicate',
    synonyms: ['clone', 'double'],
    means: 'place a copy next to the original',
    done: 'duplicated',
    keys: { 'Mod+D': 'duplicate' },
    act: (ids, { builder }) => builder.duplicate(ids),
  }),
  paste,
  repeat,
];
