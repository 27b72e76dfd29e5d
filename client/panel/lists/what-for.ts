/** What a wire is for, in a few signs: "U1 A3 ← S1 pole 4". Read from what is plugged into the two rows that it joins. */
import { isRailHole } from '../../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../../state/bench-model.ts';

interface Side {
  readonly name: string;
  /** it decides a level */
  readonly gives: boolean;
  /** it asks for one */
  readonly takes: boolean;
  /** of several things in one row the one with the highest rank is named */
  readonly rank: number;
}

/** By wire id. */
export function whatFor(model: BenchModel): ReadonlyMap<string, string> {
  const sides = new Map<string, Side[]>();
  for (const leg of model.layout.legs) {
    const s = model.specimen.get(leg.part.id);
    const side = s && sideOf(s, leg.pin);
    if (!side) continue;
    const there = sides.get(leg.strip);
    if (there) there.push(side);
    else sides.set(leg.strip, [side]);
  }
  const ends = new Map<string, Side[]>();
  for (const { wire, strip, hole } of model.layout.ends) {
    const best = [...(sides.get(strip) ?? [])].sort((a, b) => b.rank - a.rank)[0];
    const rail =
      hole && isRailHole(hole)
        ? { name: `${hole.rail.startsWith('+') ? 'plus' : 'minus'} rail`, gives: true, takes: false, rank: 0 }
        : undefined;
    const bare = { name: 'an empty row', gives: false, takes: false, rank: 0 };
    const both = ends.get(wire.id) ?? [];
    both.push(rail ?? best ?? bare);
    ends.set(wire.id, both);
  }
  return new Map([...ends].map(([id, [a, b]]) => [id, a && b ? joined(a, b) : '']));
}

function joined(a: Side, b: Side): string {
  if (a.takes && b.gives && !b.takes) return `${a.name} ← ${b.name}`;
  if (b.takes && a.gives && !a.takes) return `${b.name} ← ${a.name}`;
  if (a.gives && !b.gives) return `${a.name} → ${b.name}`;
  if (b.gives && !a.gives) return `${b.name} → ${a.name}`;
  return `${a.name} to ${b.name}`;
}

function sideOf(s: PlacedPart, pin: string): Side | undefined {
  const it = s.legs.find((l) => l.pin.pin === pin)?.pin;
  if (!it) return undefined;
  if (s.supply) return { name: `${s.part.id} ${it.name}`, gives: true, takes: false, rank: 3 };
  if (s.isChip)
    return {
      name: `${s.part.id} ${it.name}`,
      gives: it.role === 'output' || it.role === 'both',
      takes: it.role !== 'output',
      rank: 4,
    };
  const contact = s.contacts.find((c) => c.a === pin || c.b === pin);
  if (contact)
    return { name: s.contacts.length > 1 ? `${s.part.id} pole ${contact.pole + 1}` : s.part.id, gives: true, takes: false, rank: 2 };
  return { name: s.part.id, gives: false, takes: s.leds.length > 0, rank: s.leds.length > 0 ? 1 : 0 };
}
