/** A circuit drawn by its nodes: `{A}` in a line of the text notation becomes the next free hole of node A on a board; rows of one node are wired together. */
import type { Options, Simulation } from '../../sim-core/index.ts';
import { start } from './bench.ts';

export interface Schematic {
  readonly sim: Simulation;
  /** of a node, against that of another [V]; alone: against the first supply's minus */
  volts(node: string, against?: string): number;
}

const ROWS = 63;
const SIDE = ['a', 'b', 'c', 'd', 'e'];

/** lines: parts, switches and wires. Every bench has what its lines say and nothing else. */
export function schematic(lines: string, options: Partial<Options> = {}): Schematic {
  const places = new Map<string, { row: number; used: number }>();
  const first = new Map<string, number>();
  const links: string[] = [];
  let free = 1;
  const row = (): number => {
    if (free > ROWS) throw new Error('the circuit has more nodes than the board has rows');
    return free++;
  };
  const hole = (node: string): string => {
    let place = places.get(node);
    if (!place) {
      place = { row: row(), used: 0 };
      first.set(node, place.row);
    } else if (place.used === SIDE.length - 1) {
      // the last hole of a row leads on to the next
      const next = row();
      links.push(`wire LINK${links.length} from e${place.row} to a${next}`);
      place = { row: next, used: 1 };
    }
    places.set(node, { row: place.row, used: place.used + 1 });
    return `${SIDE[place.used]}${place.row}`;
  };
  const placed = lines.replaceAll(/\{(\w+)\}/g, (_, node: string) => hole(node));
  const sim = start(`board-63 B1\n${placed}\n${links.join('\n')}`, options);
  const at = (node: string): number => {
    const net = sim.circuit.nets.ofStrip.get(`B1/${first.get(node)}a`);
    if (!net) throw new Error(`there is no node ${node}`);
    return sim.readings().nets[net.index]!.volts;
  };
  return { sim, volts: (node, against) => at(node) - (against === undefined ? 0 : at(against)) };
}

/** A supply of so many volts behind `ohms`, switched on, between two nodes. */
export const supplied = (plus: string, minus: string, volts: number, ohms = 1e-3, id = 1): string =>
  `bench-supply PS${id} ${volts} with ohms ${ohms}, amps 10
  switch PS${id} set 1
  wire WP${id} from PS${id}.+ to {${plus}}
  wire WN${id} from PS${id}.- to {${minus}}`;
