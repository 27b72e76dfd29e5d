/** Things moved on the bench: they are lifted off the drawing with the wires on them, and stay lifted until the bench is drawn again. */
import { type Change, move, wiresOf } from '../../sim-core/index.ts';
import type { Spot } from '../scene/geometry.ts';
import { type Drag, type DragContext, pitchesBetween } from './drag.ts';
import { type DragLayer, liftToDragLayer } from './drag-layer.ts';
import type { At } from './placement-tool.ts';

export class MoveDrag implements Drag {
  /** the wires that go along or are on what is moved, by id */
  private readonly carried: ReadonlySet<string>;
  private readonly lifted: DragLayer;
  /** how far it has come [pitch] */
  private by: Spot = [0, 0];
  /** can it be put down where it is? */
  private fits = true;

  /** from: where the press was [pitch] */
  constructor(
    private readonly ids: readonly string[],
    private readonly from: Spot,
    private readonly reach: DragContext,
  ) {
    const { bench, context, drawing } = reach;
    const onThem = context.plan.wires.filter((w) => this.isMoved(w.from) || this.isMoved(w.to)).map((w) => w.id);
    const carried = new Map(
      [...new Set([...wiresOf(context, new Set(ids)), ...ids, ...onThem])].flatMap((id) => {
        const drawn = drawing.wires.get(id);
        return drawn ? [[id, drawn] as const] : [];
      }),
    );
    this.carried = new Set(carried.keys());
    this.lifted = liftToDragLayer(
      bench.overlay,
      ids.flatMap((id) => drawing.pieces.get(id) ?? []),
      carried,
    );
    bench.grab(true);
  }

  follow(at: At): void {
    const { bench, context, tool } = this.reach;
    const now = pitchesBetween(this.from, at.spot);
    if (now[0] === this.by[0] && now[1] === this.by[1]) return;
    this.by = now;
    this.lifted.shift(now);
    const would = move(context, this.ids, now);
    this.fits = would.ok;
    bench.overlay.classList.toggle('refused', !would.ok);
    tool.refuse(would, at);
    if (would.ok) this.layWires(would.value);
  }

  drop(): void {
    const { bench, staysLifted } = this.reach;
    const stays = this.by[0] === 0 && this.by[1] === 0;
    if (!this.fits || stays || !bench.builder.move(this.ids, this.by).ok) {
      this.leave();
      return;
    }
    this.letGo();
    staysLifted(() => this.lifted.back());
    bench.say(`${bench.builder.chosenSays} moved.`);
  }

  leave(): void {
    this.letGo();
    this.lifted.back();
  }

  private isMoved(point: string): boolean {
    return this.ids.includes(point.split('.')[0] ?? '');
  }

  private letGo(): void {
    this.reach.bench.grab(false);
    this.reach.bench.overlay.classList.remove('refused');
  }

  /** The wires concerned, to where they would go. */
  private layWires(change: Change): void {
    const { context, tool } = this.reach;
    const changes = change.op === 'all' ? change.changes : [change];
    const after = new Map(changes.flatMap((c) => (c.op === 'replace' && c.list === 'wires' ? [[c.after.id, c.after] as const] : [])));
    for (const id of this.carried) {
      const wire = after.get(id) ?? context.plan.wires.find((w) => w.id === id);
      if (!wire) continue;
      const [start, end] = [wire.from, wire.to].map((point) => {
        const spot = tool.spotOf(point);
        return spot && point.includes('.') && this.isMoved(point) ? ([spot[0] + this.by[0], spot[1] + this.by[1]] as const) : spot;
      });
      if (start && end) this.lifted.layWire(id, start, end);
    }
  }
}
