/** What is named on the bench, and where its names stand: those that nothing has changed keep their places while others come and go. */

import type { BenchModel, PlacedPart } from '../state/bench-model.ts';
import { presenting } from '../theme/presentation.ts';
import type { Face } from './faces/face.ts';
import { type Box, overlap, type Spot } from './geometry.ts';
import { drawLabel, type Label, type LabelRequest, type LabelRoom, placeLabels } from './label-placement.ts';
import { el, layIn } from './svg.ts';

export interface LabelLayer {
  readonly root: SVGGElement;
  /** where names stand now */
  boxes(): readonly Box[];
  /** places all names; small ones only if `near`. scale: pixels to a drawing unit */
  all(requests: readonly LabelRequest[], room: LabelRoom, scale: number, near: boolean): void;
  /** after an edit: takes off the names of what is not as it was, and places the new ones among the others */
  changed(requests: readonly LabelRequest[], room: () => LabelRoom): void;
}

/** So far round a thing its name may find a place, and what is there counts [pitch]. */
const ROUND = 8;

export function makeLabelLayer(): LabelLayer {
  const root = el('g', { class: 'labels', 'aria-hidden': 'true' });
  let labels: readonly Label[] = [];
  let drawn = new Map<string, SVGGElement>();
  // where each name stands, and as what, is found once: a zoom changes its size and never its place
  const places = new Map<string, Pick<Label, 'text' | 'place'>>();
  let presented = presenting();
  const placed = (wanted: readonly LabelRequest[], room: LabelRoom, scale: number, before: readonly Label[] = []): readonly Label[] => {
    if (presented !== presenting()) places.clear();
    presented = presenting();
    const now = wanted.map((request): LabelRequest => {
      const known = places.get(keyOf(request));
      return known ? { ...request, text: known.text, short: known.text, places: [known.place] } : request;
    });
    return placeLabels(now, room, scale, before).map((label, i) => {
      const request = wanted[i] ?? label.request;
      if (label.text !== '') places.set(keyOf(request), label);
      return { ...label, request };
    });
  };
  let seen: { readonly scale: number; readonly near: boolean } | undefined;
  const put = (now: readonly Label[]) => {
    const before = drawn;
    labels = now;
    drawn = new Map(
      now
        .filter((l) => l.text !== '')
        .map((l) => {
          const key = JSON.stringify([l.text, l.request.look, l.box, l.growth]);
          return [key, before.get(key) ?? drawLabel(l)];
        }),
    );
    layIn(root, [...drawn.values()]);
  };
  const shown = (requests: readonly LabelRequest[]) => requests.filter((w) => seen?.near || w.look !== 'part-name');
  return {
    root,
    boxes: () => labels.filter((l) => l.text !== '').map((l) => l.box),
    all(requests, room, scale, near) {
      seen = { scale, near };
      put(placed(shown(requests), room, scale));
    },
    changed(requests, room) {
      if (!seen) return;
      const wanted = new Map(shown(requests).map((w) => [keyOf(w), w]));
      const stay = labels.filter((l) => wanted.has(keyOf(l.request)));
      for (const l of stay) wanted.delete(keyOf(l.request));
      if (stay.length === labels.length && wanted.size === 0) return;
      const fresh = [...wanted.values()];
      put(fresh.length === 0 ? stay : [...stay, ...placed(fresh, roomRound(fresh, room()), seen.scale, stay)]);
    },
  };
}

const keyOf = ({ id, text, look, about }: LabelRequest): string =>
  `${id} ${look} ${text} ${about.x} ${about.y} ${about.width} ${about.height}`;

/** Only what is near enough to count. */
function roomRound(requests: readonly LabelRequest[], room: LabelRoom): LabelRoom {
  const rounds = requests.map(
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
export function requests({ specimens }: BenchModel, faces: ReadonlyMap<string, Face>, damage: ReadonlyMap<string, string>): LabelRequest[] {
  const leds: LabelRequest[] = [];
  const others: LabelRequest[] = [];
  for (const placed of specimens) {
    const face = faces.get(placed.part.id);
    if (!face || placed.part.at === undefined) continue;
    const damaged = damage.has(placed.part.id);
    if (face.title && !damaged && presenting()) others.push(titleRequest(placed, face.box, face.title));
    if (placed.kind.group === 'led') leds.push(ledRequest(placed, face.box, damaged));
    else if (!placed.isChip || damaged) others.push(nameRequest(placed, face.box, damaged));
  }
  return [...leds, ...others];
}

/** Below and above a box, so far beyond its edges, the nearest first [pitch]. */
const belowAndAbove = ({ height }: Box, ...beyond: readonly number[]): Spot[] =>
  beyond.flatMap((by): Spot[] => [
    [0, height / 2 + by],
    [0, -height / 2 - by],
  ]);

const titleRequest = ({ part }: PlacedPart, about: Box, text: string): LabelRequest => ({
  id: part.id,
  text,
  about,
  look: 'led-name',
  places: belowAndAbove(about, 1.4, 2.4),
});

function ledRequest({ part, leds }: PlacedPart, about: Box, damaged: boolean): LabelRequest {
  const name = leds.length === 1 ? (leds[0]?.name ?? part.id) : (part.label ?? part.id);
  const text = damaged ? `${name} damaged` : name;
  return {
    id: part.id,
    text,
    about,
    look: damaged ? 'damaged-name' : 'led-name',
    places: [...belowAndAbove(about, 0.45, 1, 1.6), [about.width / 2 + 0.3 + text.length * 0.16, 0]],
  };
}

function nameRequest({ part, kind, params }: PlacedPart, about: Box, damaged: boolean): LabelRequest {
  const name = part.label ?? part.id;
  const value = kind.group === 'passive' ? kind.value?.(params) : '';
  const text = damaged ? `${name} damaged` : [name, value].filter(Boolean).join(' ');
  const look = damaged ? 'damaged-name' : part.label ? 'led-name' : 'part-name';
  const beside = about.width / 2 + 0.2 + text.length * (look === 'part-name' ? 0.14 : 0.2);
  return {
    id: part.id,
    text,
    ...(look === 'part-name' && text !== part.id ? { short: part.id } : {}),
    about,
    look,
    places: [...belowAndAbove(about, 0.36), [beside, 0], [-beside, 0], [0, 0]],
  };
}
