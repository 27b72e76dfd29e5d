/** What the log of writes still means now: a fault that a later good write to the same address has made good is not spoken of. */
import type { ChipEvent, WriteFault, WriteReport } from '../parts/part.ts';
import type { Ref } from '../sentence/wording.ts';
import { partlyHex, partlyHexAddress } from '../units/hex.ts';

type Kind = WriteFault['fault'];

interface LatestWrites {
  /** by part and address: the last write that changed a cell */
  readonly done: readonly WriteReport[];
  /** writes that changed nothing, and that no later one made good */
  readonly ignored: readonly WriteReport[];
}

/** A report and one of its faults; `count`: how many reports had it. */
export interface WriteCase<Fault extends WriteFault | undefined = WriteFault | undefined> {
  readonly report: WriteReport;
  readonly fault: Fault;
  readonly count: number;
}

const known = new WeakMap<readonly ChipEvent[], { length: number; latest: LatestWrites }>();

function latestWrites(events: readonly ChipEvent[]): LatestWrites {
  const before = known.get(events);
  if (before?.length === events.length) return before.latest;
  const done = new Map<string, WriteReport>();
  const ignored = new Map<string, WriteReport[]>();
  for (const e of events) {
    const key = `${e.part} ${e.address.value} ${e.address.unknown}`;
    if (e.outcome !== 'ignored') {
      done.set(key, e);
      ignored.delete(key);
    } else if (!repeats(e, done.get(key))) ignored.set(key, [...(ignored.get(key) ?? []), e]);
  }
  const latest = { done: [...done.values()], ignored: [...ignored.values()].flat() };
  known.set(events, { length: events.length, latest });
  return latest;
}

/** A button that bounces strobes again while the memory stores the same byte, or too shortly to take another: without effect. */
export const repeats = (e: WriteReport, stored: WriteReport | undefined): boolean =>
  stored !== undefined &&
  e.faults.some((f) => REPEATED_STROBE.has(f.fault)) &&
  e.data.value === stored.data.value &&
  e.data.unknown === stored.data.unknown;

const REPEATED_STROBE: ReadonlySet<Kind> = new Set(['busy', 'pulse-short', 'never-guaranteed-low']);

/** For each memory the worst of its latest writes with this fault. */
export function casesOf<K extends Kind>(events: readonly ChipEvent[], kind: K): WriteCase<WriteFault & { fault: K }>[] {
  const isKind = (fault: WriteFault): fault is WriteFault & { fault: K } => fault.fault === kind;
  return worstPerPart(latestWrites(events).done.flatMap((report) => report.faults.filter(isKind).map((fault) => ({ report, fault }))));
}

/** For each memory the latest writes that changed nothing, by the reason; `glitch`: too short to be seen at all. */
export function ignoredOf(events: readonly ChipEvent[], kind: Kind | 'glitch'): WriteCase[] {
  const found = latestWrites(events).ignored.flatMap((report) => {
    const reason = IGNORING.map((k) => report.faults.find((f) => f.fault === k)).find((f) => f !== undefined);
    if ((reason?.fault ?? 'glitch') !== kind) return [];
    return [{ report, fault: reason ?? report.faults.find((f) => f.fault === 'pulse-short') }];
  });
  return worstPerPart(found);
}

/** Why a memory takes no notice, the first that applies. */
const IGNORING: readonly Kind[] = ['output-enable-low', 'busy', 'supply-low', 'just-powered', 'protected', 'no-program-voltage'];

function worstPerPart<Fault extends WriteFault | undefined>(found: readonly { report: WriteReport; fault: Fault }[]): WriteCase<Fault>[] {
  const worst = new Map<string, WriteCase<Fault>>();
  for (const { report, fault } of found) {
    const before = worst.get(report.part);
    const count = (before?.count ?? 0) + 1;
    worst.set(report.part, before && miss(before.fault) >= miss(fault) ? { ...before, count } : { report, fault, count });
  }
  return [...worst.values()];
}

const miss = (f: WriteFault | undefined): number => (f && 'measured' in f ? Math.abs(f.measured - f.limit) : 0);

/** What every finding about a write says: the memory, the address and the byte as they print, when it was, and how many there were. */
export interface WriteData {
  readonly memory: Ref;
  readonly address: string;
  readonly byte: string;
  readonly outcome: WriteReport['outcome'];
  /** on the bench's clock [s] */
  readonly time: number;
  /** writes with this fault */
  readonly count: number;
}

export const writeData = ({ report, count }: WriteCase): WriteData => ({
  memory: { kind: 'part', id: report.part },
  address: partlyHexAddress(report.address),
  byte: partlyHex(report.data, 2),
  outcome: report.outcome,
  time: report.time,
  count,
});

/** The same of a fault that has a figure, in SI units, and where its limit is from. */
export interface MeasuredWrite extends WriteData {
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
}

export function measuredWrite(c: WriteCase<Extract<WriteFault, { measured: number }>>): MeasuredWrite {
  const { measured, limit, source } = c.fault;
  return { ...writeData(c), measured, limit, source };
}

/** "byte 5A at address 0000" */
export const writtenByte = ({ byte, address }: Pick<WriteData, 'byte' | 'address'>): string => `byte ${byte} at address ${address}`;

/** No network makes a pulse as long as this, and no finger so short a press [s]. Our choice. */
const BY_FINGER = 20e-3;

/** Of this memory the longest strobe that only a finger ended. */
export const heldLow = (events: readonly ChipEvent[], part: string): WriteReport | undefined =>
  events
    .filter((e) => e.part === part && e.maximumLow >= BY_FINGER)
    .reduce<WriteReport | undefined>((longest, e) => (longest && longest.maximumLow >= e.maximumLow ? longest : e), undefined);
