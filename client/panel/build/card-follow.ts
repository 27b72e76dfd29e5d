/** Following the programming card: where the poles have to stand for each byte, which move comes next on the bench, and which bytes are in. */
import type { Plan } from '../../../shared/plan.ts';
import {
  byteAt,
  type CardStep,
  type MemoryCard,
  type PoleAt,
  type Readings,
  type Ref,
  sayWritten,
  type WriteReport,
} from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';

export type NextMove =
  | { readonly do: 'supply'; readonly part: string }
  | { readonly do: 'poles'; readonly poles: readonly PoleAt[]; readonly reading: boolean }
  | { readonly do: 'press'; readonly part: string; readonly step: CardStep }
  | { readonly do: 'nothing' };

/** A pole's place as text. */
const keyOf = ({ part, pole }: Pick<PoleAt, 'part' | 'pole'>) => `${part} ${pole}`;

/** Where every pole that the card moves has to stand when step `k` is pressed; one more than there are steps: when all is read back. */
export function polesAt(card: MemoryCard, start: Plan['switches'], k: number): readonly PoleAt[] {
  const all = [...card.toWrite, ...card.steps.flatMap((s) => s.moves), ...card.toRead];
  const target = new Map(all.map((p) => [keyOf(p), { ...p, closed: start[p.part]?.[p.pole] ?? false }]));
  const move = (p: PoleAt) => target.set(keyOf(p), p);
  for (const p of card.toWrite) move(p);
  for (const s of card.steps.slice(0, k + 1)) for (const p of s.moves) move(p);
  if (k >= card.steps.length) for (const p of card.toRead) move(p);
  return [...target.values()];
}

/** The poles that these cards move and that stand closed before the first byte. */
export function closedAtStart(cards: readonly MemoryCard[], start: Plan['switches']): readonly PoleAt[] {
  const used = new Map(cards.flatMap((c) => polesAt(c, start, c.steps.length)).map((p) => [keyOf(p), p]));
  return [...used.values()].filter((p) => start[p.part]?.[p.pole]).map((p) => ({ ...p, closed: true }));
}

/** In all bits that the table asks for. */
export const isWritten = (memories: Plan['memories'], { memory, address, byte, given }: CardStep): boolean =>
  ((byteAt(memories[memory], address) ^ byte) & given) === 0;

/** The first byte that is not in yet; as many as there are: all are. */
export function stepNow(card: MemoryCard, memories: Plan['memories']): number {
  const open = card.steps.findIndex((s) => !isWritten(memories, s));
  return open < 0 ? card.steps.length : open;
}

export function nextMove(card: MemoryCard, start: Plan['switches'], memories: Plan['memories'], readings: Readings): NextMove {
  const off = readings.supplies.find((s) => !s.on);
  if (off) return { do: 'supply', part: off.part };
  const k = stepNow(card, memories);
  const poles = polesAt(card, start, k).filter((p) => (readings.switches[p.part]?.[p.pole] ?? false) !== p.closed);
  const step = card.steps[k];
  if (poles.length > 0) return { do: 'poles', poles, reading: step === undefined };
  return step ? { do: 'press', part: card.button, step } : { do: 'nothing' };
}

/** What went wrong with a press, empty for nothing: it wrote no byte that was open, or one that was in is so no more. writes: of that press. */
export function sayPress(card: MemoryCard, before: number, now: number, writes: readonly WriteReport[]): string {
  // a button that bounces strobes again while the memory is busy with the byte that counts
  const report = writes.findLast((w) => w.outcome !== 'ignored') ?? writes.at(-1);
  const asked = card.steps[now];
  return now <= before && report && asked ? (sayWritten(report, asked) ?? '') : '';
}

/** What to ring on the bench for a move. */
export function refOf(move: NextMove): Ref | undefined {
  if (move.do === 'nothing') return undefined;
  if (move.do !== 'poles') return { kind: 'part', id: move.part };
  const [first] = move.poles;
  return first && { kind: 'pole', id: `${first.part}.${first.pole + 1}` };
}

/** "S1 pole 3 (G2)" */
export function poleName({ part, pole }: Pick<PoleAt, 'part' | 'pole'>, model: BenchModel): string {
  const specimen = model.specimen.get(part);
  const many = (specimen?.contacts.length ?? 0) > 1;
  const called = specimen?.contacts.find((c) => c.pole === pole)?.name ?? specimen?.part.label;
  return `${part}${many ? ` pole ${pole + 1}` : ''}${called ? ` (${called})` : ''}`;
}
