/** A cursor on the tie points, moved by keys: what it rests on is spoken, and Enter does there what a click would do. */
import { type Hole, holeAt, holeName, holeSpot, isRailHole, readHole, stripOf } from '../core.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Builder } from './builder.ts';

const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** Over the trench, and over the gaps of a rail [pitch]; from one board to the next it is not much farther. */
const FARTHEST = 12;

export interface BenchCursor {
  readonly spot: readonly [number, number] | undefined;
  key(e: KeyboardEvent): boolean;
  hide(): void;
}

export function makeCursor(
  builder: Builder,
  standing: () => BenchModel | undefined,
  moved: () => void,
  say: (news: string) => void,
): BenchCursor {
  let at: string | undefined;
  const hole = (): Hole | undefined => {
    const { plan } = standing() ?? {};
    if (!plan || at === undefined) return undefined;
    const found = readHole(at, plan.boards);
    return 'problem' in found ? undefined : found;
  };
  const go = (to: Hole) => {
    const now = standing();
    if (!now) return;
    at = holeName(to, now.plan.boards);
    moved();
    say(holeSays(to, now));
  };
  const step = ([dx, dy]: readonly [number, number]) => {
    const { plan } = standing() ?? {};
    const from = hole();
    const board = plan?.boards[0];
    if (!plan || !board) return;
    if (!from) return go({ board, column: 'a', row: 1 });
    const [x, y] = holeSpot(from);
    for (let k = 1; k <= FARTHEST; k++) {
      const next = holeAt([x + dx * k, y + dy * k], plan.boards);
      // between rows and rails columns do not meet everywhere: the neighbour to the side will do
      const beside =
        next ?? (dy !== 0 ? (holeAt([x + 1, y + dy * k], plan.boards) ?? holeAt([x - 1, y + dy * k], plan.boards)) : undefined);
      if (beside) return go(beside);
    }
  };
  const act = () => {
    const now = standing();
    if (!now || at === undefined) return;
    const answer = builder.held
      ? builder.place({ ...builder.held, at })
      : builder.wireFrom !== undefined
        ? builder.wire(builder.wireFrom, at)
        : undefined;
    if (answer) {
      if (answer.ok) builder.hold(undefined);
      const made = answer.ok ? answer.value : undefined;
      say(
        !answer.ok
          ? answer.failure.says
          : made?.op === 'add-part'
            ? `${made.part.id} placed.`
            : made?.op === 'add-wire'
              ? `${made.wire.id} connects ${made.wire.from} to ${made.wire.to}.`
              : '',
      );
    } else if (now.layout.taken.has(at)) choose();
    else {
      builder.beginWire(at);
      say(`Wire from ${at}. Go to its other end and press Enter.`);
    }
  };
  const choose = () => {
    const now = standing();
    const id = now?.layout.taken
      .get(at ?? '')
      ?.replace(/^wire /, '')
      .split(' ')[0];
    if (id === undefined) return say('This hole is empty.');
    builder.select([id], true);
    say(`Selected: ${builder.chosenSays}.`);
  };
  return {
    get spot() {
      const h = hole();
      return h && holeSpot(h);
    },
    key(e) {
      const way = WAYS[e.key];
      if (way) step(way);
      else if (e.key === 'Enter' && at !== undefined) act();
      else if (e.key === ' ' && at !== undefined) choose();
      else return false;
      e.preventDefault();
      return true;
    },
    hide() {
      at = undefined;
    },
  };
}

/** "row 14 column e, free, net of U1 A3" */
function holeSays(h: Hole, { layout, nets, plan, specimen }: BenchModel): string {
  const name = holeName(h, plan.boards);
  const where = isRailHole(h)
    ? `${h.rail.startsWith('+') ? 'plus' : 'minus'} rail ${h.rail[1]}, hole ${h.k}`
    : `row ${h.row} column ${h.column}`;
  const board = plan.boards.length > 1 ? `${h.board.id} ` : '';
  const by = layout.taken.get(name);
  const legs = nets.ofStrip.get(stripOf(h))?.legs ?? [];
  const of = legs
    .slice(0, 2)
    .map((l) => `${l.part.label ?? l.part.id} ${specimen.get(l.part.id)?.legs.find((p) => p.pin.pin === l.pin)?.pin.name ?? l.pin}`);
  const more = legs.length > 2 ? ` and ${legs.length - 2} more` : '';
  return `${board}${where}${by ? `, taken by ${by}` : ''}${of.length > 0 ? `, connected to ${of.join(', ')}${more}` : ', not connected'}`;
}
