/** The resistor and the current of each output's lamp, before anything is built: by what drives it, which lamp it is and what was asked for. */
import { SEGMENTS } from '../logic/segments.ts';
import { partKind } from '../parts/catalogue.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/digit.ts';
import type { LampColour } from '../parts/figures/junctions.ts';
import { lampBar } from '../parts/lamp-bar.ts';
import { led } from '../parts/led.ts';
import type { ChipSpec } from '../parts/part.ts';
import { chipOf, type KindSheet, sheetOf } from './chip-sheet.ts';
import { completed } from './draft.ts';
import { bufferChip, driverChip } from './drivers.ts';
import { limitFor } from './sizes.ts';
import { type Wish, type WishedOutput, WORD } from './wish.ts';

type Asked = Pick<Wish, 'outputs' | 'memory' | 'show' | 'buffered' | 'amps'>;

export interface Limit {
  readonly ohms: number;
  /** what can be had of what was asked for [A] */
  readonly amps: number;
}

const LAMP_COLOURS: readonly LampColour[] = ['green', 'red', 'amber'];
export const colourAt = (output: WishedOutput, bit: number): LampColour =>
  output.colour ?? LAMP_COLOURS[bit % LAMP_COLOURS.length] ?? 'red';

/** Its lamp hangs from plus and is pulled down: by a low level, or by a switch that a high level closes. */
export const fromPlus = ({ show }: Pick<Wish, 'show'>, { activeLow }: WishedOutput): boolean => show === 'loads' || activeLow === true;

/** One for each output, in order; undefined where there is no such memory. */
export function limitsOf(wish: Asked): readonly Limit[] | undefined {
  const kind = partKind(wish.memory);
  if (kind?.group !== 'memory') return undefined;
  const memory = chipOf(kind, completed(kind, { id: '', kind: kind.id }));
  const chip = driving(wish, memory);
  return wish.outputs.map((output, i): Limit => {
    const word = wish.outputs.slice(i - (i % WORD), i - (i % WORD) + WORD);
    const hangs = wish.show === 'lamps' || wish.show === 'loads' ? fromPlus(wish, output) : word.some((o) => o.activeLow);
    const lamp = lampAt(wish.show, output, i % WORD, hangs);
    if (!lamp) throw new Error(`no lamp for output ${i}`);
    return limitFor({ ...lamp, chip, side: hangs ? 'low' : 'high', lamps: word.length }, output.amps ?? wish.amps);
  });
}

function driving({ show, buffered }: Asked, memory: ChipSpec): ChipSpec {
  if (show === 'loads') return driverChip();
  return buffered ? bufferChip() : memory;
}

function lampAt(show: Wish['show'], output: WishedOutput, bit: number, hangs: boolean): KindSheet['lamps'][number] | undefined {
  if (show === 'bar') return sheetOf(lampBar, { colour: 'green' }).lamps[bit];
  if (show === 'digit') {
    const segment = [...SEGMENTS, 'DP'][bit] ?? 'DP';
    return sheetOf(hangs ? digitCommonAnode : digitCommonCathode, { colour: 'red' }).lamps.find((l) => l.lamp.name === segment);
  }
  return sheetOf(led, { colour: colourAt(output, bit) }).lamps[0];
}
