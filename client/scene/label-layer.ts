/** What is named on the bench, and where its names stand: those that nothing has changed keep their places while others come and go. */

import type { BenchModel } from '../state/bench-model.ts';
import { presenting } from '../theme/presentation.ts';
import type { Face } from './faces/face.ts';
import { type Box, overlap } from './geometry.ts';
import { drawLabel, type Label, type LabelRequest, type LabelRoom, placeLabels } from './label-placement.ts';
import { el, layIn } from './svg.ts';

export interface LabelLayer {
  readonly root: SVGGElement;
  /** places all names; small ones only if `near`. scale: pixels to a drawing unit */
  all(wishes: readonly LabelRequest[], room: LabelRoom, scale: number, near: boolean): void;
  /** after an edit: takes off the names of what is not as it was, and places the new ones among the others */
  changed(wishes: readonly LabelRequest[], room: () => LabelRoom): void;
}

/** So far round a thing its name may find a place, and what is there counts [pitch]. */
const ROUND = 8;

export function makeLabelLayer(): LabelLayer {
  const root = el('g', { class: 'labels', 'aria-hidden': 'true' });
  let labels: readonly Label[] = [];
  let drawn = new Map<string, SVGGElement>();
  let seen: { readonly scale: number; readonly near: boolean } | undefined;
  const put = (now: readonly Label[]) => {
    const before = drawn;
    labels = now;
    drawn = new Map(
      now
        .filter((l) => l.text !== '')
        .map((l) => {
          const key = JSON.stringify([l.text, l.wish.look, l.box, l.growth]);
          return [key, before.get(key) ?? drawLabel(l)];
        }),
    );
    layIn(root, [...drawn.values()]);
  };
  const shown = (wishes: readonly LabelRequest[]) => wishes.filter((w) => seen?.near || w.look !== 'part-name');
  return {
    root,
    all(wishes, room, scale, near) {
      seen = { scale, near };
      put(placeLabels(shown(wishes), room, scale));
    },
    changed(wishes, room) {
      if (!seen) return;
      const wanted = new Map(shown(wishes).map((w) => [keyOf(w), w]));
      const stay = labels.filter((l) => wanted.has(keyOf(l.wish)));
      for (const l of stay) wanted.delete(keyOf(l.wish));
      if (stay.length === labels.length && wanted.size === 0) return;
      const fresh = [...wanted.values()];
      put(fresh.length === 0 ? stay : [...stay, ...placeLabels(fresh, roomRound(fresh, room()), seen.scale, stay)]);
    },
  };
}

const keyOf = ({ id, text, look, about }: LabelRequest): string =>
  `${id} ${look} ${text} ${about.x} ${about.y} ${about.width} ${about.height}`;

/** Only what is near enough to count. */
function roomRound(wishes: readonly LabelRequest[], room: LabelRoom): LabelRoom {
  const rounds = wishes.map(
    ({ about }): Box => ({
      x: about.x - ROUND,
      y: about.y - ROUND,
      width: about.width + 2 * ROUND,
      height: about.height + 2 * ROUND,
    }),
  );
  return {
    ...room,
    bodies: room.bodies.filter((b) => rounds.some((r) => overlap(r, b) > 0)),
    busy: room.busy.filter(([x, y]) => rounds.some((r) => x > r.x && x < r.x + r.width && y > r.y && y < r.y + r.height)),
  };
}

/** LEDs first: they have the first choice of places. */
export function wishes({ specimens }: BenchModel, faces: ReadonlyMap<string, Face>, damage: ReadonlyMap<string, string>): LabelRequest[] {
  const ledWishes: LabelRequest[] = [];
  const others: LabelRequest[] = [];
  for (const { part, kind, params, leds, isChip } of specimens) {
    const about = faces.get(part.id)?.box;
    if (!about || part.at === undefined) continue;
    const down = about.height / 2;
    const side = about.width / 2;
    const dead = damage.has(part.id);
    const named = (name: string) => (dead ? `${name} damaged` : name);
    const title = faces.get(part.id)?.title;
    if (title && !dead && presenting())
      others.push({
        id: part.id,
        text: title,
        about,
        look: 'led-name',
        places: [
          [0, down + 1.4],
          [0, -down - 1.4],
          [0, down + 2.4],
          [0, -down - 2.4],
        ],
      });
    if (kind.group === 'led') {
      const text = named(leds.length === 1 ? (leds[0]?.name ?? part.id) : (part.label ?? part.id));
      ledWishes.push({
        id: part.id,
        text,
        about,
        look: dead ? 'damaged-name' : 'led-name',
        places: [
          [0, down + 0.45],
          [0, -down - 0.45],
          [0, down + 1],
          [0, -down - 1],
          [0, down + 1.6],
          [0, -down - 1.6],
          [side + 0.3 + text.length * 0.16, 0],
        ],
      });
    } else if (!isChip || dead) {
      const value = kind.value?.(params);
      const text = dead
        ? named(part.label ?? part.id)
        : [part.label ?? part.id, kind.group === 'passive' ? value : ''].filter(Boolean).join(' ');
      const look = dead ? 'damaged-name' : part.label ? 'led-name' : 'part-name';
      const half = text.length * (look === 'part-name' ? 0.14 : 0.2);
      others.push({
        id: part.id,
        text,
        ...(look === 'part-name' && text !== part.id ? { short: part.id } : {}),
        about,
        look,
        places: [
          [0, down + 0.36],
          [0, -down - 0.36],
          [side + 0.2 + half, 0],
          [-side - 0.2 - half, 0],
          [0, 0],
        ],
      });
    }
  }
  return [...ledWishes, ...others];
}
