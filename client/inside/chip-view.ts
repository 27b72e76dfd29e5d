/** What a chip's pins and its inside are at the moment that is looked at: now, or where the cursor stands in a recording. */
import type { ChipState } from '../../sim-core/index.ts';
import type { PlacedPart } from '../state/bench-model.ts';
import type { Session } from '../state/session.ts';
import { sampleAt } from '../timing/wave-rows.ts';

export interface SeenPin {
  readonly pin: string;
  readonly name: string;
  readonly role: PlacedPart['legs'][number]['pin']['role'];
  /** L, H, X, Z; empty for a pin without a level */
  readonly level: string;
  readonly volts: number;
}

export interface ChipView {
  readonly specimen: PlacedPart;
  readonly pins: readonly SeenPin[];
  readonly state: ChipState;
  /** [s] */
  readonly time: number;
  /** the cursor in a recording is looked at, not the live bench */
  readonly recorded: boolean;
}

export function seeChip(session: Session, part: string): ChipView | undefined {
  const specimen = session.model?.specimen.get(part);
  if (!specimen?.isChip) return undefined;
  const { cursor } = session.recordings;
  const trace = session.recordings.of(part);
  if (cursor !== undefined && trace) {
    const at = sampleAt(trace, cursor);
    const state = trace.states.findLast((s) => s.time <= cursor)?.state ?? trace.states[0]?.state;
    if (state)
      return {
        specimen,
        state,
        time: cursor,
        recorded: true,
        pins: specimen.legs.map(({ pin }, i) => {
          const seen = trace.pins[i];
          const level = seen?.levels[at] ?? '-';
          return { ...pin, level: level === '-' ? '' : level, volts: seen?.volts[at] ?? 0 };
        }),
      };
  }
  const chip = session.readings?.chips.find((c) => c.part === part);
  if (!chip || !session.readings) return undefined;
  return {
    specimen,
    state: chip.state,
    time: session.readings.time,
    recorded: false,
    pins: specimen.legs.map(({ pin }, i) => ({ ...pin, level: chip.pins[i]?.level ?? '', volts: chip.pins[i]?.volts ?? 0 })),
  };
}
