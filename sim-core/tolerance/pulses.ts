/** What can be asked of the buttons that write: the width of each write pulse, guaranteed and maximum. */
import type { Plan } from '../../shared/plan.ts';
import type { WriteFault, WriteReport } from '../parts/part.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ContactSite } from '../run/circuit/sites.ts';
import { blocksOf, isButton } from '../run/circuit/switch-settings.ts';
import { type ExperimentReading, makeExperimentRunner } from './experiment.ts';
import type { Asked, MarginQuery } from './margin-query.ts';
import { thresholdOf, tolerancesOf } from './tolerances.ts';

/** Buttons beyond so many are not pressed. */
const MOST_BUTTONS = 8;

/** What a pulse's width has no part in: a write that is ignored for one of these says nothing of the pulse. */
const OF_THE_PULSE: ReadonlySet<WriteFault['fault']> = new Set(['pulse-short', 'pulse-long', 'never-guaranteed-low']);

/** plan: supplies on, switches where a memory is ready to be written. */
export function pulseQuestions(plan: Plan, circuit: Circuit): MarginQuery[] {
  return circuit.contacts
    .filter(isButton)
    .slice(0, MOST_BUTTONS)
    .flatMap((button) => ofButton(plan, button));
}

function ofButton(plan: Plan, button: ContactSite): MarginQuery[] {
  const id = button.placed.part.id;
  const trial = makeExperimentRunner({ plan, button: id });
  const seen = trial([], []);
  if (!seen) return [];
  return seen.events.flatMap((report, i) => {
    if (report.outcome === 'ignored' && report.faults.some((f) => !OF_THE_PULSE.has(f.fault))) return [];
    const turn = seen.events.slice(0, i).filter((e) => e.part === report.part).length;
    const spreads = tolerancesOf(seen.circuit, blocksOf(seen.circuit, pathOf(seen, button, report.part)));
    return widths(report, turn, id).map(
      (asked): MarginQuery => ({ ...asked, spreads, drawn: [...spreads, thresholdOf(report.part)], trial }),
    );
  });
}

/** The button's legs, and the control pins of the memory: what is joined to them decides the pulse. */
function pathOf({ circuit }: ExperimentReading, button: ContactSite, memory: string): ContactSite['legs'][number][] {
  const chip = circuit.chipById.get(memory);
  const control = Object.keys(chip?.spec.toRead ?? {});
  const contact = circuit.contactsById.get(button.placed.part.id)?.find((c) => c !== undefined);
  return [...(contact?.legs ?? []), ...(chip?.inputs.filter((p) => control.includes(p.name)).map((p) => p.leg) ?? [])];
}

function widths({ part, limits }: WriteReport, turn: number, button: string): Asked[] {
  if (!limits) return [];
  const { least, most, source } = limits;
  const width = (of: (r: WriteReport) => number) => (seen: ExperimentReading) => {
    const report = seen.events.filter((e) => e.part === part)[turn];
    // no report: the strobe never left its level
    return report ? of(report) : 0;
  };
  const about = { at: { kind: 'part', id: part }, unit: 's', source, button } as const;
  return [
    { ...about, what: 'pulse-width-guaranteed', must: 'at-least', limit: least, read: width((r) => r.guaranteedLow) },
    ...(most === undefined
      ? []
      : [{ ...about, what: 'pulse-width-maximum', must: 'at-most', limit: most, read: width((r) => r.maximumLow) } as const]),
  ];
}
