/** Which tie points are one electrical net. Knows strips, legs and wires; nothing of voltage. */
import type { Layout, Leg, WireEnd } from './layout.ts';

/** Strips that wires join into one piece of metal, with the legs and wire ends on it. */
export interface Net {
  /** position in `Nets.all`; ordered by the first strip that a leg or a wire's end touches in the plan */
  readonly index: number;
  readonly strips: readonly string[];
  readonly legs: readonly Leg[];
  readonly ends: readonly WireEnd[];
}

/** All nets of a bench, in order, and the net of each strip. */
export interface Nets {
  readonly all: readonly Net[];
  /** strip name → net; strips with nothing in them belong to no net */
  readonly ofStrip: ReadonlyMap<string, Net>;
}

/** Union-find over the strips that are in use. Wires join; legs only belong. */
export function findNets(layout: Layout): Nets {
  const parent = new Map<string, string>();
  const rootOf = (strip: string): string => {
    let root = strip;
    for (let up = parent.get(root); up !== undefined && up !== root; up = parent.get(root)) root = up;
    parent.set(strip, root);
    return root;
  };
  for (const { strip } of [...layout.legs, ...layout.ends]) if (!parent.has(strip)) parent.set(strip, strip);
  for (let i = 0; i < layout.ends.length; i += 2) {
    const from = layout.ends[i];
    const to = layout.ends[i + 1];
    if (from && to) parent.set(rootOf(to.strip), rootOf(from.strip));
  }

  const drafts = new Map<string, { strips: Set<string>; legs: Leg[]; ends: WireEnd[] }>();
  const draftFor = (strip: string) => {
    const root = rootOf(strip);
    let draft = drafts.get(root);
    if (!draft) {
      draft = { strips: new Set(), legs: [], ends: [] };
      drafts.set(root, draft);
    }
    draft.strips.add(strip);
    return draft;
  };
  for (const leg of layout.legs) draftFor(leg.strip).legs.push(leg);
  for (const end of layout.ends) draftFor(end.strip).ends.push(end);

  const all = [...drafts.values()].map((d, index): Net => ({ index, strips: [...d.strips], legs: d.legs, ends: d.ends }));
  const ofStrip = new Map(all.flatMap((net) => net.strips.map((s) => [s, net] as const)));
  return { all, ofStrip };
}
