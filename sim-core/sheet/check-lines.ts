/** The checks of a stage as lines of a table: what is measured alike, with the same band, is one line with several places. */
import { MEASURED_TITLES, sayGood, sayLights, sayMeasured, sayPoleOf } from '../text/stage-words.ts';
import { enumeration } from '../units/text-list.ts';
import type { StageCheck } from './stage-check.ts';

/** One line: its checks, what it is for, and in words where the probes go and what is good. */
export interface CheckLine {
  readonly by: StageCheck['by'];
  readonly checks: readonly StageCheck[];
  readonly says: string;
  /** "close S1 pole 1 (G3)"; '' for nothing */
  readonly first: string;
  /** red probe, then black: "d7 to PS1.-", "PS1.+ to each of a3, a4", "d11–e25, d12–e23", "e20–e21–e22"; by eye: from where to where a wire is touched; '' for nowhere */
  readonly places: string;
  readonly good: string;
  readonly drawnWrong?: true;
}

/** In the order of the checks. */
export function checkLines(checks: readonly StageCheck[]): readonly CheckLine[] {
  const groups = new Map<string, StageCheck[]>();
  for (const [i, check] of checks.entries()) {
    const key = isMany(check) ? JSON.stringify([check.by, check.about.what, placeOf(check), goodOf(check), check.drawnWrong]) : String(i);
    groups.set(key, [...(groups.get(key) ?? []), check]);
  }
  return [...groups.values()].flatMap((group) => lineOfChecks(group));
}

/** Such checks come in rows of a dozen: nothing is moved between them but the probes. */
const isMany = (check: StageCheck): boolean =>
  check.by !== 'eye' &&
  check.by !== 'farads' &&
  check.closed.length === 0 &&
  !['rails', 'supply', 'drawn', 'decoupling'].includes(check.about.what);

const goodOf = (check: StageCheck): string => (check.by === 'eye' ? sayLights(check.lights) : sayGood(check));

function lineOfChecks(checks: readonly StageCheck[]): CheckLine[] {
  const [check] = checks;
  if (!check) return [];
  const ends = checks.flatMap((c) => (c.by === 'eye' ? (c.wire ? [[c.wire.from, c.wire.to] as const] : []) : [[c.red, c.black] as const]));
  return [
    {
      by: check.by,
      checks,
      says: saysOf(checks, check),
      first: firstOf(check),
      places: sayPlaces(ends),
      good: goodOf(check),
      ...(check.drawnWrong ? { drawnWrong: true } : {}),
    },
  ];
}

function firstOf({ about }: StageCheck): string {
  if (about.what === 'look') return about.of ? `close ${sayPoleOf(about.of)}` : '';
  return about.what === 'pole' && about.closed ? `${about.of.button ? 'hold' : 'close'} ${sayPoleOf(about.of)}` : '';
}

/** Where a row of checks belongs that are made in one go. */
const placeOf = ({ about }: StageCheck): string =>
  about.what === 'joined' || about.what === 'apart'
    ? about.one.part
    : about.what === 'tied'
      ? about.to
      : about.what === 'pole'
        ? about.of.part
        : '';

function saysOf(checks: readonly StageCheck[], { about }: StageCheck): string {
  if (about.what === 'apart') return `neighbouring rows at the place of ${about.one.part} do not touch`;
  if (checks.length === 1) return sayMeasured(about);
  const title = about.what === 'pole' ? `Held while ${about.of.part} is open` : MEASURED_TITLES[about.what];
  return `${title}: ${enumeration(checks.map((c) => shortOf(c)))}`;
}

type Ends = readonly [red: string, black: string];

function sayPlaces(ends: readonly Ends[]): string {
  const [first] = ends;
  if (!first) return '';
  if (ends.length === 1) return `${first[0]} to ${first[1]}`;
  if (ends.every(([red]) => red === first[0])) return `${first[0]} to each of ${ends.map(([, black]) => black).join(', ')}`;
  if (ends.every(([, black]) => black === first[1])) return `each of ${ends.map(([red]) => red).join(', ')} to ${first[1]}`;
  const chains: string[][] = [];
  for (const [red, black] of ends) {
    const last = chains.at(-1);
    if (last?.at(-1) === red) last.push(black);
    else chains.push([red, black]);
  }
  return chains.map((c) => c.join('–')).join(', ');
}

/** One of several, in two or three words. */
function shortOf({ about }: StageCheck): string {
  switch (about.what) {
    case 'rail':
      return `${about.board} ${about.side} ${about.end}`;
    case 'tied':
    case 'pole':
    case 'leg':
      return `${about.part} ${about.name}`;
    case 'joined':
      return `${about.one.part} ${about.one.name}–${about.other.part} ${about.other.name}`;
    case 'value':
      return about.part;
    default:
      return sayMeasured(about);
  }
}
