/** Building along: the screens of a sheet in order, and what of them has been ticked off, kept in this browser by the bench's title. */
import type { BuildSheet, CheckLine, SheetStage, StageStep } from '../../sim-core/index.ts';

/** One screen: a thing to put down, or a line of checks; k: its place in its stage, from 1. */
export type AlongScreen = {
  readonly stage: SheetStage;
  /** from 1 */
  readonly number: number;
  readonly k: number;
  readonly of: number;
  /** what is kept of it is kept under this; it changes when the thing is somewhere else */
  readonly key: string;
} & ({ readonly step: StageStep; readonly line?: undefined } | { readonly line: CheckLine; readonly step?: undefined });

/** lines: of a stage's checks. */
export function screensOf({ stages }: BuildSheet, lines: (stage: SheetStage) => readonly CheckLine[]): readonly AlongScreen[] {
  return stages.flatMap((stage, i): AlongScreen[] => {
    const checks = lines(stage);
    const of = stage.steps.length + checks.length;
    const place = (k: number) => ({ stage, number: i + 1, k, of });
    return [
      ...stage.steps.map((step, k) => ({ ...place(k + 1), key: `${step.id} ${step.places.join(' ')}`, step })),
      ...checks.map((line, k) => ({
        ...place(stage.steps.length + k + 1),
        key: `${stage.stage} ${line.first} ${line.places} ${line.says} ${line.good}`,
        line,
      })),
    ];
  });
}

/** 'done': put down, or good; 'wrong': the check failed and was not measured again. */
export type AlongMark = 'done' | 'wrong';

/** Where it is kept: any part of localStorage. */
type Shelf = Pick<Storage, 'getItem' | 'setItem'>;

const KEPT = 'lampwright-along';
/** Benches whose progress is kept. */
const MOST = 20;

export class AlongProgress {
  private readonly marks: Map<string, AlongMark>;

  constructor(
    private readonly title: string,
    private readonly shelf: Shelf | undefined,
  ) {
    this.marks = new Map(Object.entries(readKept(shelf)[title] ?? {}));
  }

  of(screen: AlongScreen): AlongMark | undefined {
    return this.marks.get(screen.key);
  }

  /** undefined: not done any more. Where nothing can be kept it holds until the page is left. */
  set(screen: AlongScreen, mark: AlongMark | undefined): void {
    if (mark) this.marks.set(screen.key, mark);
    else this.marks.delete(screen.key);
    const { [this.title]: _, ...others } = readKept(this.shelf);
    const all = [...Object.entries(others).slice(1 - MOST), [this.title, Object.fromEntries(this.marks)]];
    try {
      this.shelf?.setItem(KEPT, JSON.stringify(Object.fromEntries(all)));
    } catch {
      // a full or forbidden store: it is kept while the page is open
    }
  }

  /** The first screen that is not done; after the last one where all are. */
  next(screens: readonly AlongScreen[]): number {
    const open = screens.findIndex((s) => this.of(s) !== 'done');
    return open < 0 ? screens.length : open;
  }
}

function readKept(shelf: Shelf | undefined): Record<string, Record<string, AlongMark>> {
  try {
    const kept: unknown = JSON.parse(shelf?.getItem(KEPT) ?? '{}');
    return typeof kept === 'object' && kept !== null ? (kept as Record<string, Record<string, AlongMark>>) : {};
  } catch {
    return {};
  }
}
