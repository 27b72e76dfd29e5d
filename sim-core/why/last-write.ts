/** Why a byte did not stick, or where it went: the memory's last write as it was measured on its pins, what the rules say of it, and what still stands in its way. */
import { byteAt } from '../document/memory-rows.ts';
import { toPart, toPin } from '../findings/rule.ts';
import { logFindings } from '../findings/run-rules.ts';
import { repeats } from '../findings/write-log.ts';
import type { WriteFault, WriteReport } from '../parts/part.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { partlyHex, partlyHexAddress } from '../units/hex.ts';
import type { Chain, Link, Reason } from './answer.ts';
import type { ExplanationQuestion } from './explanation-step.ts';
import { whyNoPulse } from './no-pulse.ts';
import { whyPin } from './pin.ts';
import { whyPinLevel } from './pin-level.ts';

/** What came of the last write to this memory, or why none has come. */
export function whyWrite(q: ExplanationQuestion, chip: ChipSite): Chain {
  const all = q.sim.events.filter((e) => e.part === chip.placed.part.id);
  const report = lastOf(all);
  if (!report) return whyNoPulse(q, chip);
  const before = all.findLast((e) => e.outcome !== 'ignored' && e.time < report.time);
  const busy = report.faults.some((f) => f.fault === 'busy');
  const since: Reason[] =
    busy && before ? [{ code: 'write-since', at: [toPart(chip.placed)], data: { seconds: report.time - before.time } }] : [];
  return [
    outcome(chip, report),
    ...logFindings(q.scene.circuit, [report]),
    ...since,
    ...times(chip, report),
    ...stillSo(q, chip, report),
    ...elsewhere(q, chip, report),
  ];
}

/** The last report that is no more than a bounce of a press which was taken. */
const lastOf = (all: readonly WriteReport[]): WriteReport | undefined =>
  all.findLast(
    (e, i) =>
      e.outcome !== 'ignored' ||
      !repeats(
        e,
        all.slice(0, i).findLast((d) => d.outcome !== 'ignored'),
      ),
  );

function outcome(
  { placed }: ChipSite,
  { outcome: came, address, data, time, guaranteedLow, maximumLow, limits, command }: WriteReport,
): Reason {
  return {
    code: command ? 'write-command' : `write-${came}`,
    at: [toPart(placed)],
    data: {
      time,
      address: partlyHexAddress(address),
      byte: partlyHex(data, 2),
      guaranteed: guaranteedLow,
      maximum: maximumLow,
      ...(limits ? { least: limits.least, ...(limits.most === undefined ? {} : { most: limits.most }) } : {}),
    },
  };
}

/** Every time that was measured, with its limit; what had not moved since the bench was started has none. */
const times = ({ placed }: ChipSite, report: WriteReport): Reason[] =>
  report.times
    .filter((t) => Number.isFinite(t.measured))
    .map(({ time, measured, limit }) => ({ code: 'write-time', at: [toPart(placed)], data: { time, measured, limit } }));

/** The pin that kept the byte out, if it still does. */
function stillSo(q: ExplanationQuestion, chip: ChipSite, { faults }: WriteReport): readonly Link[] {
  const pins = q.scene.chip(chip.placed.part.id)?.pins ?? [];
  const has = (...kinds: readonly WriteFault['fault'][]) => faults.some((f) => kinds.includes(f.fault));
  const enable = chip.inputs.find((i) => i.name === '/OE');
  const low = enable && pins.find((p) => p.pin === enable.leg.pin)?.level === 'L';
  const held = has('output-enable-low') && low ? whyPin(q, chip, enable.leg, 'high').reasons : [];
  const names = [
    ...(has('address-unknown') ? (chip.spec.word?.address ?? []) : []),
    ...(has('data-unknown') ? (chip.spec.word?.data ?? []) : []),
    ...(has('output-enable-unknown') ? ['/OE'] : []),
  ];
  const unknown = chip.inputs.find((i) => names.includes(i.name) && pins.find((p) => p.pin === i.leg.pin)?.level === 'X');
  return unknown ? [...held, ...whyPinLevel(q, toPin(unknown.leg).id)] : held;
}

/** A byte that was stored, and where it is looked for now. */
function elsewhere(q: ExplanationQuestion, chip: ChipSite, { outcome: came, address, data, command }: WriteReport): readonly Reason[] {
  if (came !== 'stored' || address.unknown || data.unknown || command) return [];
  const { id } = chip.placed.part;
  const now = q.scene.chip(id)?.state.address;
  const holds = byteAt(q.sim.plan().memories[id], address.value);
  const bits = { address: partlyHexAddress(address), holds: partlyHex({ value: holds, unknown: 0 }, 2) };
  const at = [toPart(chip.placed)];
  const kept: Reason = { code: holds === data.value ? 'write-kept' : 'write-gone', at, data: bits };
  if (!now || now.unknown || now.value === address.value) return [kept];
  return [kept, { code: 'write-elsewhere', at, data: { ...bits, now: partlyHexAddress(now) } }];
}
