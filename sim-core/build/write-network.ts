/**
 * Resistor and capacitor that make one short write pulse of a press, sized for a memory: the pulse keeps the part's limits with the supply at ± 10 %,
 * every part at the end of its tolerance and thresholds at both ends, judged by the simulated button itself.
 */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { capacitor } from '../parts/capacitor.ts';
import { buttonContact } from '../parts/figures/contacts.ts';
import { type PartKind, thresholdsOf } from '../parts/part.ts';
import { pushButton } from '../parts/push-button.ts';
import { resistor } from '../parts/resistor.ts';
import type { Margin } from '../tolerance/margin-evaluation.ts';
import { marginsOf } from '../tolerance/margins.ts';
import { nearestIn, nextUpIn } from '../units/e-series.ts';
import {
  type BuilderState,
  bridge,
  completed,
  connect,
  finish,
  newBuilderState,
  type Row,
  railBeside,
  seat,
  takeAt,
  takeFreeHole,
} from './builder-state.ts';
import { bareMemory, power } from './common-sections.ts';
import { chipOf } from './kind-contents.ts';

export interface WriteNetwork {
  readonly ohms: number;
  readonly farads: number;
  readonly discharge: number;
}

/** Least resistor that is tried [Ω]: below it the button carries more than 50 mA and the pulse dips the supply. Our choice. */
const LEAST_OHMS = 220;
/** Resistor of the pulse that is tried first [Ω]: with it, for a pulse of half a microsecond, the discharge resistor stays below 10 MΩ. Our choice. */
const USUAL_OHMS = 470;
/** The lowest supply that everything is sized for [V]: the usual one's − 10 %. */
const LEAST_VOLTS = 4.5;
/**
 * Where no longest pulse is given, the worst one is this many times the least, at least: no longer, for a contact that opens again while the capacitor is
 * still being charged makes two pulses of one. Our choice.
 */
const WITHOUT_MOST = 1.2;
const TRIES = 6;

/** Chosen once per kind. */
const chosen = new Map<string, Outcome<WriteNetwork>>();

export function writeNetworkFor(kind: PartKind): Outcome<WriteNetwork> {
  const before = chosen.get(kind.id);
  if (before) return before;
  const found = search(kind);
  chosen.set(kind.id, found);
  return found;
}

function search(kind: PartKind): Outcome<WriteNetwork> {
  let network = withDischarge(kind, USUAL_OHMS, 2.2e-9);
  const tried = new Set<string>();
  for (let k = 0; k < TRIES; k++) {
    tried.add(`${network.ohms} ${network.farads}`);
    const judged = judgeWith(kind, network);
    if (!judged.ok) return judged;
    const short = judged.value.find((m) => m.what === 'pulse-width-guaranteed');
    const long = judged.value.find((m) => m.what === 'pulse-width-maximum');
    if (!short)
      return failed('build/not-by-hand', 'memory', `${kind.title} is not written by a short pulse. Choose an EEPROM or a static RAM.`);
    if (short.holds && (long?.holds ?? short.worst >= WITHOUT_MOST * short.limit)) return done(network);
    // a pulse is as wide as RC is large: the middle, as a ratio, between what is too short and what is too long; or well beyond the least
    const grow = short.limit / short.worst;
    const product = network.ohms * network.farads * (long ? Math.sqrt((grow * long.limit) / long.worst) : WITHOUT_MOST ** 2 * grow);
    network = splitProduct(kind, product, tried);
  }
  return failed(
    'build/no-pulse',
    'memory',
    `No standard resistor and capacitor give ${kind.title} a write pulse within its limits in the worst case. Choose another memory, or load the image instead.`,
  );
}

/** Usual values whose product comes nearest, not tried before; of equals the resistor that is nearest to the usual one. */
function splitProduct(kind: PartKind, product: number, tried: ReadonlySet<string>): WriteNetwork {
  let best: WriteNetwork | undefined;
  let off = Number.POSITIVE_INFINITY;
  for (const farads of [0.47e-9, 1e-9, 2.2e-9, 4.7e-9, 10e-9, 22e-9, 47e-9, 100e-9]) {
    const ohms = nearestIn('E12', product / farads);
    const away = Math.abs(Math.log((ohms * farads) / product)) + 0.03 * Math.abs(Math.log(ohms / USUAL_OHMS));
    if (ohms < LEAST_OHMS || away >= off || tried.has(`${ohms} ${farads}`)) continue;
    [best, off] = [withDischarge(kind, ohms, farads), away];
  }
  if (!best) throw new Error('no capacitor was left to be tried');
  return best;
}

const leastShare = ({ params }: PartKind): number => 1 - Number(params.find((p) => p.name === 'tolerance')?.fallback) / 100;

/**
 * The discharge resistor: after the longest bounce, with a low supply and small specimens, so much charge is left that /WE falls no lower than the
 * high level that the memory takes for sure, and a press makes one pulse. A hand's next press comes many time constants later.
 */
function withDischarge(kind: PartKind, ohms: number, farads: number): WriteNetwork {
  const { input } = chipOf(kind, completed(kind, { id: '', kind: kind.id }));
  const seconds = buttonContact.bounce.most / Math.log(LEAST_VOLTS / thresholdsOf(input, LEAST_VOLTS).vih);
  return { ohms, farads, discharge: nextUpIn('E12', seconds / (farads * leastShare(capacitor) * leastShare(resistor))) };
}

/** A bench with nothing on it but a memory that waits to be written, and the network. */
function judgeWith(kind: PartKind, network: WriteNetwork): Outcome<readonly Margin[]> {
  const state = newBuilderState([{ kind: 'board-63', level: 0 }]);
  const [board] = state.boards;
  if (!board) throw new Error('a plan without a board');
  const supply = power(state);
  const { word } = chipOf(kind, completed(kind, { id: 'U1', kind: kind.id }));
  const levels = Object.fromEntries([...(word?.address ?? []), ...(word?.data ?? [])].map((pin) => [pin, 'L'] as const));
  const memory = bareMemory(state, kind, { board, column: 'd', row: 5 }, { ...levels, '/OE': 'H', '/WE': null });
  putWriteNetwork(state, network, { board, row: 40, side: 'lower' }, memory.row('/WE'));
  const plan: Plan = finish(state, { title: 'A write pulse', memories: {}, notes: [], switches: { [supply]: [true] } });
  return marginsOf(plan, 'worst');
}

/** Rows from the button's near pair of legs to the strip of /WE's network, and from pair to pair. */
const [TO_BUTTON, ACROSS] = [3, 2] as const;
/** The network stands to the left of its strip, and takes so many rows with it. */
export const WRITE_NETWORK_ROWS = TO_BUTTON + ACROSS + 1;

/**
 * The button pulls the strip at `at`, in the lower half of its board, low through the capacitor; the resistor charges it again, the discharge resistor empties it.
 * Returns the button's id.
 */
export function putWriteNetwork(
  state: BuilderState,
  { ohms, farads, discharge }: WriteNetwork,
  at: Row,
  strobe: Row,
  label = 'write',
): string {
  const near = { ...at, row: at.row - TO_BUTTON };
  const far: Row = { ...at, row: near.row - ACROSS, side: 'upper' };
  const { id } = seat(state, pushButton, { prefix: 'S', at: { board: at.board, column: 'e', row: far.row }, label });
  connect(state, takeFreeHole(state, at), takeFreeHole(state, strobe), 'orange');
  bridge(state, resistor, 'R', takeAt(state, at, 'b'), railBeside(state, at, '+'), { params: { ohms }, label: 'pull-up' });
  bridge(state, capacitor, 'C', takeAt(state, at, 'c'), takeAt(state, near, 'c'), { params: { farads }, label: 'pulse' });
  bridge(state, resistor, 'R', takeAt(state, at, 'd'), takeAt(state, near, 'd'), { params: { ohms: discharge }, label: 'discharge' });
  connect(state, takeFreeHole(state, far), railBeside(state, far, '-'), 'black');
  return id;
}
