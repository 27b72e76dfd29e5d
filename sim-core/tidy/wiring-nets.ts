/** Whether the wires of a net still join all that stands in it. */
import type { WiringState } from './wiring-state.ts';

/** All strips of this net in which something stands are joined by its wires, and so are its rails, whether something stands there yet or not. */
export function isWhole(state: WiringState, net: number): boolean {
  const strips = state.index.ofNet[net] ?? [];
  const parent = new Map(strips.map((strip) => [strip, strip]));
  const root = (strip: number): number => {
    let r = strip;
    while (parent.get(r) !== r) r = parent.get(r) ?? r;
    return r;
  };
  const inUse = new Set(strips.filter((strip) => state.keeps(strip)));
  for (const { there, isWire, strips: ends } of state.lines) {
    if (!there || !ends.some((strip) => state.strip(strip).net === net)) continue;
    if (isWire) {
      parent.set(root(ends[0]), root(ends[1]));
      for (const strip of ends) inUse.add(strip);
    } else for (const strip of ends) if (state.strip(strip).net === net) inUse.add(strip);
  }
  return new Set([...inUse].map(root)).size <= 1;
}
