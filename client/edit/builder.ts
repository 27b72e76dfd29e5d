/** The builder's state: the bench as an edit context, the selection, the part to place, and every edit as one change of the session. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import {
  type Change,
  copy,
  cutRails,
  done,
  type EditContext,
  failed,
  flip,
  type Insert,
  move,
  moveBoard,
  type Outcome,
  type Pasted,
  type Placing,
  partKind,
  partLookup,
  paste,
  place,
  recolour,
  reEnd,
  reLeg,
  remove,
  repeatAlongRows,
  setLabel,
  setParams,
  setPoleName,
  storeBytes,
  turn,
  wireBetween,
} from '../../sim-core/index.ts';
import type { Session } from '../state/session.ts';
import type { Lie } from './placement-preview.ts';
import { ROLE_COLOURS, roleOfWire } from './wire-role.ts';

/** The selection changed, or the part to place. */
type Listener = () => void;

/** Colours of wires that the card and the commands offer. */
export const WIRE_COLOURS = [
  'red',
  'black',
  'green',
  'yellow',
  'blue',
  'white',
  'orange',
  'violet',
  'turquoise',
  'pink',
  'brown',
  'grey',
] as const;

export class Builder {
  /** parts and wires by id */
  selection: ReadonlySet<string> = new Set();
  /** a part from Parts that the next click places */
  toPlace: Placing | undefined;
  /** how a part to be placed on two legs lies */
  lies: Lie = {};
  /** the start of a wire whose end is still to be named */
  wireFrom: string | undefined;
  /** wires are being laid: a touch on any hole begins one, with Parts closed */
  laying = false;
  /** one part after the other of the same kind, until cancelled */
  several = false;
  private clip: Plan | undefined;
  private readonly listeners = new Set<Listener>();

  constructor(readonly session: Session) {
    session.on('model', ({ plan }) => {
      const there = new Set([...plan.parts, ...plan.wires, ...plan.boards].map((x) => x.id));
      if ([...this.selection].every((id) => there.has(id))) return;
      this.select([...this.selection].filter((id) => there.has(id)));
    });
  }

  on(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
  private tell() {
    for (const listener of this.listeners) listener();
  }

  /** The bench as it stands, with bytes written and switches set; undefined before there is one. */
  get context(): EditContext | undefined {
    const { model, plan } = this.session;
    return model && plan && { plan, layout: model.layout, kinds: partLookup };
  }

  /** the card of what is chosen is shown; not for what has just been put down */
  showing = false;

  select(ids: Iterable<string>, add = false, showing = true) {
    this.showing = showing;
    const now = new Set(add ? this.selection : []);
    for (const id of ids)
      if (add && now.has(id)) now.delete(id);
      else now.add(id);
    this.selection = now;
    this.tell();
  }
  get chosen(): readonly string[] {
    return [...this.selection];
  }
  get chosenParts(): readonly PlanPart[] {
    return (this.session.model?.plan.parts ?? []).filter((p) => this.selection.has(p.id));
  }

  /** A part from Parts is placed by the next click; undefined: none. */
  hold(what: Placing | undefined) {
    if (what?.kind !== this.toPlace?.kind) this.lies = {};
    this.toPlace = what;
    this.wireFrom = undefined;
    this.laying = false;
    this.tell();
  }
  /** The part to be placed, a quarter turn on; a part with rows of legs end for end. */
  turnToPlace(way: 1 | -1) {
    const { toPlace, lies } = this;
    if (!toPlace) return;
    const { rotated, ...bare } = toPlace;
    this.toPlace = rotated ? bare : { ...bare, rotated: true };
    this.lies = { ...lies, quarter: ((lies.quarter ?? 0) + way + 4) % 4 };
    this.tell();
  }
  /** The part to be placed with its two legs exchanged. */
  flipToPlace() {
    this.lies = { ...this.lies, flipped: !this.lies.flipped };
    this.tell();
  }
  /** Wires, one after another, until cancelled. */
  layWires() {
    this.hold(undefined);
    this.laying = true;
    this.tell();
  }
  keepSeveral(several: boolean) {
    this.several = several;
    this.tell();
  }
  beginWire(from: string | undefined) {
    this.wireFrom = from;
    if (from !== undefined) this.toPlace = undefined;
    this.tell();
  }
  /** Lets go of everything in the hand; true if there was anything. */
  cancel(): boolean {
    const had = this.toPlace !== undefined || this.wireFrom !== undefined || this.laying || this.selection.size > 0;
    [this.toPlace, this.wireFrom, this.laying, this.selection] = [undefined, undefined, false, new Set()];
    this.tell();
    return had;
  }

  /** One edit of the bench as it stands. What it makes new is chosen afterwards. */
  do<C extends Change>(edit: (context: EditContext) => Outcome<C>): Outcome<C> {
    const { context } = this;
    if (!context) return failed('page/no-bench', '', 'There is no bench yet. Open a plan first.');
    const change = edit(context);
    const failure = change.ok && !isNothing(change.value) ? this.session.edit(change.value) : undefined;
    return failure ? { ok: false, failure } : change;
  }
  private doPasted(edit: (context: EditContext) => Outcome<Pasted>): Outcome<Change> {
    let ids: readonly string[] = [];
    const made = this.do((g) => {
      const pasted = edit(g);
      if (!pasted.ok) return pasted;
      ids = pasted.value.ids;
      return done(pasted.value.change);
    });
    if (made.ok) this.select(ids);
    return made;
  }

  place(placing: Placing): Outcome<Insert<'parts'>> {
    const made = this.do((g) => place(g, placing));
    if (made.ok) this.select([made.value.item.id], false, false);
    return made;
  }
  /** The colour of a wire between two points, by its role. */
  colourOf(...ends: readonly string[]): string {
    const { model } = this.session;
    return ROLE_COLOURS[model ? roleOfWire(ends, model) : 'other'];
  }
  wire(from: string, to: string, colour = this.colourOf(from, to)): Outcome<Insert<'wires'>> {
    const made = this.do((g) => wireBetween(g, from, to, colour));
    if (made.ok) this.beginWire(undefined);
    return made;
  }
  reEnd = (id: string, end: 'from' | 'to', point: string) => this.do((g) => reEnd(g, id, end, point));
  reLeg = (id: string, leg: 'at' | 'to', point: string) => this.do((g) => reLeg(g, id, leg, point));
  move = (ids: readonly string[], by: readonly [number, number]) =>
    this.do((g) => {
      const board = ids.length === 1 ? g.plan.boards.find((b) => b.id === ids[0]) : undefined;
      return board ? moveBoard(g, board.id, [board.spot[0] + by[0], board.spot[1] + by[1]]) : move(g, ids, by);
    });
  cutRails = (board: string, cut: boolean) => this.do((g) => cutRails(g, board, cut));
  /** way: 1 clockwise, -1 anticlockwise */
  rotate = (way: 1 | -1 = 1, ids = this.chosen) => this.do((g) => turn(g, ids, way));
  flip = (ids = this.chosen) => this.do((g) => flip(g, ids));
  remove = (ids = this.chosen) => this.do((g) => remove(g, ids));
  label = (id: string, label: string) => this.do((g) => setLabel(g, id, label));
  poleName = (id: string, pole: number, name: string) => this.do((g) => setPoleName(g, id, pole, name));
  params = (id: string, params: NonNullable<PlanPart['params']>) => this.do((g) => setParams(g, id, params));
  /** Bytes from an address on, both as typed; one change. */
  store(id: string, address: string, bytes: string): Outcome<Change> {
    const word = this.session.model?.specimen.get(id)?.word;
    if (!word) return failed('edit/not-a-memory', id, `${id} is not a memory.`);
    return this.do((g) => storeBytes(g, id, 2 ** word.address.length, address, bytes));
  }
  recolour = (ids: readonly string[], colour: string) => this.do((g) => recolour(g, ids, colour));
  repeat = (times: number, step: number, ids = this.chosen) => this.doPasted((g) => repeatAlongRows(g, ids, times, step));
  duplicate = (ids = this.chosen) => this.doPasted((g) => paste(g, copy(g, ids)));
  paste = (at?: string) =>
    this.doPasted((g) =>
      this.clip
        ? paste(g, this.clip, at)
        : failed('edit/nothing-copied', '', 'Nothing has been copied. Select a part or a wire, then copy it.'),
    );
  copy(ids = this.chosen): Outcome<void> {
    const { context } = this;
    if (!context || ids.length === 0) return failed('edit/nothing-selected', '', 'Nothing is selected. Select a part or a wire first.');
    this.clip = copy(context, ids);
    return done(undefined);
  }

  /** "Resistor R3", "wire W12", "3 things" */
  get chosenSays(): string {
    const [first, ...more] = this.chosen;
    if (first === undefined) return 'nothing';
    if (more.length > 0) return `${more.length + 1} items`;
    const part = this.chosenParts[0];
    const isBoard = this.session.model?.plan.boards.some((b) => b.id === first);
    return part ? `${partKind(part.kind)?.title ?? part.kind} ${part.id}` : `${isBoard ? 'board' : 'wire'} ${first}`;
  }
}

const isNothing = (c: Change): boolean => c.op === 'all' && c.changes.every(isNothing);
