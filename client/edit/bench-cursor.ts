/** A cursor on the tie points, moved by keys: what it rests on is spoken, and Enter does there what a click would do. */
import { type Hole, holeAt, holeName, holeSpot, isRailHole, readHole, stripOf } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Builder } from './builder.ts';
import { insertText } from './insert-text.ts';

const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** Over the trench, and over the gaps of a rail [pitch]; from one board to the next it is not much farther. */
const FARTHEST = 12;

/** What the cursor works with. */
export interface CursorBench {
  readonly builder: Builder;
  model(): BenchModel | undefined;
  /** the cursor has come to a hole */
  moved(): void;
  say(news: string): void;
}

export class BenchCursor {
  /** the name of the hole that it rests on; undefined: it is not shown */
  private at: string | undefined;

  constructor(private readonly bench: CursorBench) {}

  get spot(): readonly [number, number] | undefined {
    const hole = this.hole();
    return hole && holeSpot(hole);
  }

  /** True: the key was for it. */
  key(e: Pick<KeyboardEvent, 'key' | 'preventDefault'>): boolean {
    const way = WAYS[e.key];
    if (way) this.step(way);
    else if (e.key === 'Enter' && this.at !== undefined) this.act(this.at);
    else if (e.key === ' ' && this.at !== undefined) this.choose(this.at);
    else return false;
    e.preventDefault();
    return true;
  }

  hide(): void {
    this.at = undefined;
  }

  private hole(): Hole | undefined {
    const { plan } = this.bench.model() ?? {};
    if (!plan || this.at === undefined) return undefined;
    const found = readHole(this.at, plan.boards);
    return found.ok ? found.value : undefined;
  }

  private go(to: Hole): void {
    const model = this.bench.model();
    if (!model) return;
    this.at = holeName(to, model.plan.boards);
    this.bench.moved();
    this.bench.say(holeSays(to, model));
  }

  private step([dx, dy]: readonly [number, number]): void {
    const { plan } = this.bench.model() ?? {};
    const from = this.hole();
    const board = plan?.boards[0];
    if (!plan || !board) return;
    if (!from) {
      this.go({ board, column: 'a', row: 1 });
      return;
    }
    const [x, y] = holeSpot(from);
    for (let k = 1; k <= FARTHEST; k++) {
      const next = holeAt([x + dx * k, y + dy * k], plan.boards);
      // between rows and rails columns do not meet everywhere: the neighbour to the side will do
      const beside =
        next ?? (dy !== 0 ? (holeAt([x + 1, y + dy * k], plan.boards) ?? holeAt([x - 1, y + dy * k], plan.boards)) : undefined);
      if (beside) {
        this.go(beside);
        return;
      }
    }
  }

  /** Sets down what is in the hand, or does what a click does. */
  private act(at: string): void {
    const { builder, say } = this.bench;
    const model = this.bench.model();
    if (!model) return;
    if (builder.toPlace || builder.wireFrom !== undefined) {
      const done = builder.toPlace ? builder.place({ ...builder.toPlace, at }) : builder.wire(builder.wireFrom ?? '', at);
      if (done.ok) builder.hold(undefined);
      say(done.ok ? insertText(done.value) : done.failure.says);
    } else if (model.layout.taken.has(at)) this.choose(at);
    else {
      builder.beginWire(at);
      say(`Wire from ${at}. Go to its other end and press Enter.`);
    }
  }

  private choose(at: string): void {
    const { builder, say } = this.bench;
    const id = this.bench
      .model()
      ?.layout.taken.get(at)
      ?.replace(/^wire /, '')
      .split(' ')[0];
    if (id === undefined) {
      say('This hole is empty.');
      return;
    }
    builder.select([id], true);
    say(`Selected: ${builder.chosenSays}.`);
  }
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
