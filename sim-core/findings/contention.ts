/** Which outputs are held against what they pull: by another output, or by a supply's terminal, with nothing but metal between. */
import type { ChipSite } from '../run/circuit/sites.ts';
import { METAL, nearest, reachOf } from './resistive-reach.ts';
import type { RuleContext } from './rule-context.ts';

/** An output that carries less than this is not in contention [A]. Our choice. */
const CONTENTION_AMPS = 1e-3;

export interface Contention {
  readonly chip: ChipSite;
  readonly pin: ChipSite['outputs'][number];
  /** out of the pin [A]: + gives, − takes */
  readonly amps: number;
  readonly against: 'output' | 'supply';
  readonly other: { readonly chip: ChipSite; readonly pin: ChipSite['outputs'][number] } | undefined;
  /** net of the supply's terminal */
  readonly terminal: number | undefined;
}

const seen = new WeakMap<RuleContext, readonly Contention[]>();

export function contentions(scene: RuleContext): readonly Contention[] {
  const before = seen.get(scene);
  if (before) return before;
  const found = findContention(scene);
  seen.set(scene, found);
  return found;
}

function findContention(scene: RuleContext): Contention[] {
  const { circuit } = scene;
  const strong = circuit.chips
    .flatMap((chip) => chip.outputs.map((pin) => ({ chip, pin, amps: -scene.amps(pin.device), net: circuit.netOf(pin.leg).index })))
    .filter((o) => Math.abs(o.amps) > CONTENTION_AMPS);
  if (strong.length === 0) return [];
  const reach = reachOf(circuit);
  return strong.flatMap((o): Contention[] => {
    const metal = new Map([...reach.from(o.net, 'no LEDs', (c) => !scene.closed(c))].filter(([, ohms]) => ohms < METAL));
    const other = strong.find((p) => p !== o && metal.has(p.net) && p.amps * o.amps < 0);
    const terminal = nearest(metal, o.amps > 0 ? reach.minus : reach.plus);
    if (!other && !terminal) return [];
    const { chip, pin, amps } = o;
    return [{ chip, pin, amps, against: other ? 'output' : 'supply', other, terminal: terminal?.net }];
  });
}
