/** What a menu offers for what is under the pointer: lines of the command line, the likeliest first. */
import type { Target } from '../edit/hit-test.ts';
import type { PlacedPart } from '../state/bench-model.ts';
import type { CommandContext } from './command.ts';

/** goesOn: the line lacks something, and is gone on with in the command line. */
export interface MenuLine {
  readonly says: string;
  readonly line: string;
  readonly goesOn?: true;
}

/** Of a thing that is among several selected ones, what is done is done to all of them. */
export function menuLines(target: Target, { session, builder }: Pick<CommandContext, 'session' | 'builder'>): readonly MenuLine[] {
  const several = 'id' in target && builder.selection.has(target.id) && builder.selection.size > 1;
  if (several) return [{ says: 'Zoom to selection', line: 'zoom to selection' }, ...ofItems('', `${builder.selection.size} selected`)];
  switch (target.on) {
    case 'part':
    case 'control': {
      const found = session.model?.specimen.get(target.id);
      const meter = session.model?.plan.meters.find((m) => m.id === target.id);
      if (meter && !found) return [{ says: 'Delete this meter', line: `delete meter ${meter.id}` }, ...ofBench];
      return found ? ofPart(found, target.on === 'part' ? target.led : undefined) : ofBench;
    }
    case 'wire':
      return [
        { says: `Why does ${target.id} carry this current?`, line: `why ${target.id}` },
        { says: 'Colour…', line: `set ${target.id} to`, goesOn: true },
        ...ofItems(` ${target.id}`, target.id),
      ];
    case 'point':
      return [
        { says: `Wire from ${target.point} to…`, line: `wire ${target.point} to`, goesOn: true },
        ...(target.point.includes('.') ? [] : [{ says: `Paste at ${target.point}`, line: `paste at ${target.point}` }]),
        ...ofBench,
      ];
    case 'board':
      return [
        { says: 'Cut rails in the middle', line: `cut rails ${target.id}` },
        { says: 'Make rails continuous', line: `continuous rails ${target.id}` },
        { says: `Delete ${target.id}`, line: `delete ${target.id}` },
        ...ofBench,
      ];
    default:
      return ofBench;
  }
}

function ofPart({ part, kind, leds, isChip, supply }: PlacedPart, led: string | undefined): readonly MenuLine[] {
  const { id } = part;
  const asked = led ?? leds[0]?.led;
  return [
    ...(asked === undefined ? [] : [{ says: `Why is ${asked} lit or dark?`, line: `why ${asked}` }]),
    ...(supply ? [{ says: 'Switch on or off', line: `switch ${id}` }] : []),
    ...(isChip ? [{ says: 'Inside view', line: `inside view ${id}` }] : []),
    ...(part.damaged ? [{ says: `Replace ${id}`, line: `replace ${id}` }] : []),
    ...(kind.params.length > 0 && !isChip ? [{ says: 'Value…', line: `set ${id} to`, goesOn: true } as const] : []),
    { says: 'Name…', line: `call ${id}`, goesOn: true },
    ...(part.at === undefined ? [] : [{ says: 'Rotate', line: `rotate ${id}` }]),
    ...(part.to === undefined ? [] : [{ says: 'Flip', line: `flip ${id}` }]),
    { says: `Zoom to ${id}`, line: `zoom to ${id}` },
    ...ofItems(` ${id}`, id),
  ];
}

/** named: ' R1', or nothing for what is selected. */
const ofItems = (named: string, called: string): readonly MenuLine[] => [
  { says: 'Copy', line: `copy${named}` },
  { says: 'Duplicate', line: `duplicate${named}` },
  { says: `Delete ${called}`, line: `delete${named}` },
];

const ofBench: readonly MenuLine[] = [
  { says: 'Paste', line: 'paste' },
  { says: 'Select all', line: 'select all' },
  { says: 'Add board', line: 'add board' },
  { says: 'Tidy wiring', line: 'tidy wiring' },
  { says: 'Fit the window', line: 'fit' },
];
