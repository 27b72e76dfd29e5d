/** The colour that a new wire gets by what it is for: rail +, rail −, address, data, enable, or other. It can be changed afterwards. */
import { readHole, stripOf } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';

export type WireRole = 'rail +' | 'rail −' | 'address' | 'data' | 'enable' | 'other';

export const ROLE_COLOURS: Readonly<Record<WireRole, string>> = {
  'rail +': 'red',
  'rail −': 'black',
  address: 'blue',
  data: 'yellow',
  enable: 'violet',
  other: 'green',
};

/** Control pins by the names that data sheets give them. */
const ENABLE = /^\/?(?:CE|OE|WE|CS|E|G|PGM|LE)\d*$/;

/** What a wire between two points is for: a rail first, then the pin of a chip that either end reaches. */
export function roleOfWire(ends: readonly string[], { plan, nets, netOfLeg, specimens }: BenchModel): WireRole {
  const netOf = (end: string): readonly number[] => {
    const leg = netOfLeg.get(end);
    if (leg !== undefined) return [leg];
    const hole = readHole(end, plan.boards);
    const net = hole.ok ? nets.ofStrip.get(stripOf(hole.value)) : undefined;
    return net ? [net.index] : [];
  };
  const reached = new Set(ends.flatMap(netOf));
  const signs = specimens.flatMap((s) =>
    s.legs.flatMap((l) => (s.supply && reached.has(l.net) ? (l.pin.pin === s.supply.plus ? '+' : '−') : [])),
  );
  const rails = [...ends.map((e) => /(?:^|:)([+\-−])/.exec(e)?.[1]?.replace('-', '−')), ...signs];
  if (rails.includes('−')) return 'rail −';
  if (rails.includes('+')) return 'rail +';
  const pins = specimens.flatMap(({ isChip, word, legs }) =>
    isChip ? legs.filter((l) => reached.has(l.net)).map((l) => ({ name: l.pin.name, word })) : [],
  );
  if (pins.some((p) => p.word?.address.includes(p.name))) return 'address';
  if (pins.some((p) => p.word?.data.includes(p.name))) return 'data';
  return pins.some((p) => ENABLE.test(p.name)) ? 'enable' : 'other';
}
