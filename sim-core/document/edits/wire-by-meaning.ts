/** A wire by what it is to join, such as a pin, a part or a rail: the holes are chosen, free, under no part, and as near to each other as can be. */
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { BOARDS, RAILS, type Rail, railX } from '../../board/boards.ts';
import type { Leg } from '../../board/layout.ts';
import { findNets } from '../../board/nets.ts';
import { type Hole, holeName, holeSpot, holesApart, holesOf, isRailHole, readHole, sameStrip, stripOf } from '../../board/tie-points.ts';
import type { Insert } from '../changes.ts';
import { type EditContext, roomBeside } from './edit-context.ts';
import { readPoint } from './ids.ts';
import { addWire } from './wires.ts';

const GROUND = /^(?:([a-z]\w*):)?(?:gnd|vss|0v|ground|-|−)$/i;
const PLUS = /^(?:([a-z]\w*):)?(?:vcc|vdd|\+5v|5v|plus|\+)$/i;
/** A rail beside a row: '+5' is the hole of either plus rail that is printed above or below row 5. */
const BESIDE_ROW = /^(?:([a-z]\w*):)?([+−-])(\d{1,3})$/i;

/**
 * A wire from one thing to another, each a hole, a terminal, a pin such as U1.9, a part with a leg that is not yet connected, or a rail: GND, VCC, +5V, `+5`.
 * Fails with `edit/…`.
 */
export function wireBetween(context: EditContext, from: string, to: string, colour: string): Outcome<Insert<'wires'>> {
  const [ends, others] = [endsNamed(context, from), endsNamed(context, to)];
  if (!ends.ok) return ends;
  if (!others.ok) return others;
  const { boards } = context.plan;
  const spotOf = (end: string) => {
    const hole = readHole(end, boards);
    return hole.ok ? hole.value : undefined;
  };
  let best: readonly [string, string] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const a of ends.value)
    for (const b of others.value) {
      const [one, other] = [spotOf(a), spotOf(b)];
      // two names for one piece of metal: no wire is needed, and that is said where it is laid
      const apart = one && other ? (stripOf(one) === stripOf(other) ? 1e6 : holesApart(one, other)) : 0;
      if (apart < least) [best, least] = [[a, b], apart];
    }
  return best ? addWire(context, best[0], best[1], colour) : noHole(from);
}

/** The free hole of the same strip that is nearest to a spot [pitch], where a part's leg is in this one; the hole itself otherwise. */
export function freeBesideLeg(context: EditContext, point: string, [x, y]: readonly [number, number]): string {
  const { plan, layout } = context;
  const hole = readHole(point, plan.boards);
  if (!hole.ok || !layout.legs.some((leg) => leg.hole && holeName(leg.hole, plan.boards) === point)) return point;
  const away = (h: Hole) => Math.hypot(holeSpot(h)[0] - x, holeSpot(h)[1] - y);
  const [nearest] = usable(context, sameStrip(hole.value)).sort((a, b) => away(a) - away(b));
  return nearest ? holeName(nearest, plan.boards) : point;
}

/** Every hole or terminal that these words may mean. */
function endsNamed(context: EditContext, typed: string): Outcome<readonly string[]> {
  const text = typed.trim();
  const { plan, layout } = context;
  const rails = railsNamed(context, text);
  if (rails) return rails.ok ? freeOf(context, rails.value, text) : rails;
  const part = plan.parts.find((p) => p.id.toLowerCase() === text.toLowerCase());
  const legs = layout.legs.filter((l) => (part ? l.part === part : `${l.part.id}.${l.pin}`.toLowerCase() === text.toLowerCase()));
  const [first] = legs;
  if (!first) {
    const point = readPoint(context, text);
    return point.ok ? done([point.value]) : point;
  }
  if (part && legs.length > 2)
    return failed('edit/unknown-hole', text, `${part.id} has ${legs.length} pins: name one, such as ${part.id}.${first.pin}.`);
  const leg = legs.length === 1 ? first : legs.find((l) => !isConnected(context, l));
  if (!leg)
    return failed(
      'edit/unknown-hole',
      text,
      `Both legs of ${first.part.id} are connected: name one, such as ${first.part.id}.${first.pin}.`,
    );
  return leg.hole ? freeOf(context, sameStrip(leg.hole), text) : done([leg.strip]);
}

/** Something else is in its strip. */
const isConnected = ({ layout }: EditContext, leg: Leg): boolean =>
  layout.legs.some((other) => other !== leg && other.strip === leg.strip) || layout.ends.some((end) => end.strip === leg.strip);

/** undefined: the words mean no rail. */
function railsNamed(context: EditContext, text: string): Outcome<readonly Hole[]> | undefined {
  const beside = BESIDE_ROW.exec(text);
  const [sign, on] = GROUND.test(text)
    ? ['-', GROUND.exec(text)?.[1]]
    : PLUS.test(text)
      ? ['+', PLUS.exec(text)?.[1]]
      : [beside?.[2], beside?.[1]];
  if (sign === undefined) return undefined;
  const { boards } = context.plan;
  const board = on === undefined ? undefined : boards.find((b) => b.id.toLowerCase() === on.toLowerCase());
  if (on !== undefined && !board) return failed('edit/unknown-hole', text, `${text} names board ${on}, which is not on this bench.`);
  const plus = sign === '+';
  const isOfSign = (rail: Rail) => rail.startsWith(plus ? '+' : '-');
  if (!beside)
    return done(
      fed(
        context,
        (board ? [board] : boards).flatMap(holesOf).filter((h) => isRailHole(h) && isOfSign(h.rail)),
        plus,
      ),
    );
  const row = Number(beside[3]);
  const at = board ?? boards[0];
  if (!at) return failed('edit/unknown-hole', text, `${text} needs a board, and this bench has none.`);
  const kind = BOARDS[at.kind];
  const all = Array.from({ length: kind.railHoles }, (_, i) => railX(kind, i + 1));
  if (all.includes(row)) return done(RAILS.filter(isOfSign).map((rail): Hole => ({ board: at, rail, k: all.indexOf(row) + 1 })));
  const near = [...all].sort((a, b) => Math.abs(a - row) - Math.abs(b - row)).slice(0, 2);
  return failed(
    'edit/unknown-hole',
    text,
    `The rails of ${at.id} have no hole beside row ${row}. Use ${sign}${near[0]} or ${sign}${near[1]}.`,
  );
}

/** Those that are led to a supply's terminal of this sign; all of them while none is. */
function fed({ layout }: EditContext, holes: readonly Hole[], plus: boolean): readonly Hole[] {
  const nets = findNets(layout);
  const live = new Set(nets.all.filter((net) => net.strips.some((s) => s.endsWith(plus ? '.+' : '.-'))).flatMap((net) => net.strips));
  const led = holes.filter((h) => live.has(stripOf(h)));
  return led.length > 0 ? led : holes;
}

/** Free holes; those under a part only where there is no other. */
function usable(context: EditContext, holes: readonly Hole[]): Hole[] {
  const { plan, layout } = context;
  const room = roomBeside(context);
  const free = holes.filter((h) => room.occupant(holeName(h, plan.boards)) === undefined);
  const open = free.filter((h) => !isUnderPart(layout.legs, h));
  return open.length > 0 ? open : free;
}

function freeOf(context: EditContext, holes: readonly Hole[], text: string): Outcome<readonly string[]> {
  const free = usable(context, holes);
  return free.length > 0 ? done(free.map((h) => holeName(h, context.plan.boards))) : noHole(text);
}

const noHole = (text: string) =>
  failed(
    'edit/no-free-hole',
    text,
    `${text} has no free hole left. Move the end of another wire from it to a hole that it is connected to.`,
  );

/** Between the two rows of legs of a package. */
function isUnderPart(legs: readonly Leg[], hole: Hole): boolean {
  const [x, y] = holeSpot(hole);
  const spots = new Map<string, Array<readonly [number, number]>>();
  for (const { part, hole: at } of legs) if (at) spots.set(part.id, [...(spots.get(part.id) ?? []), holeSpot(at)]);
  return [...spots.values()].some((all) => {
    if (all.length < 4) return false;
    const [xs, ys] = [all.map(([u]) => u), all.map(([, v]) => v)];
    return x >= Math.min(...xs) && x <= Math.max(...xs) && y > Math.min(...ys) && y < Math.max(...ys);
  });
}
