/** The resistor and the current of each output's LED, before anything is built: by what drives it, which LED it is and what was asked for. */
import { SEGMENTS } from '../logic/segments.ts';
import { partKind } from '../parts/catalogue.ts';
import type { LedColour } from '../parts/figures/junctions.ts';
import { led } from '../parts/led.ts';
import { ledBar } from '../parts/led-bar-graph.ts';
import type { ChipSpec } from '../parts/part.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/seven-segment-display.ts';
import { type BuildRequest, type RequestedOutput, WORD } from './build-request.ts';
import { completed } from './builder-state.ts';
import { bufferChip, driverChip } from './drivers.ts';
import { chipOf, type KindSheet, sheetOf } from './kind-contents.ts';
import { limitFor } from './value-selection.ts';

type Asked = Pick<BuildRequest, 'outputs' | 'memory' | 'show' | 'buffered' | 'amps'>;

export interface CurrentLimit {
  readonly ohms: number;
  /** what can be had of what was asked for [A] */
  readonly amps: number;
}

const LED_COLOURS: readonly LedColour[] = ['green', 'red', 'amber'];
export const colourAt = (output: RequestedOutput, bit: number): LedColour =>
  output.colour ?? LED_COLOURS[bit % LED_COLOURS.length] ?? 'red';

/** Its LED hangs from plus and is pulled down: by a low level, or by a switch that a high level closes. */
export const fromPlus = ({ show }: Pick<BuildRequest, 'show'>, { activeLow }: RequestedOutput): boolean =>
  show === 'loads' || activeLow === true;

/** One for each output, in order; undefined where there is no such memory. */
export function limitsOf(wish: Asked): readonly CurrentLimit[] | undefined {
  const kind = partKind(wish.memory);
  if (kind?.group !== 'memory') return undefined;
  const memory = chipOf(kind, completed(kind, { id: '', kind: kind.id }));
  const chip = driving(wish, memory);
  return wish.outputs.map((output, i): CurrentLimit => {
    const word = wish.outputs.slice(i - (i % WORD), i - (i % WORD) + WORD);
    const hangs = wish.show === 'leds' || wish.show === 'loads' ? fromPlus(wish, output) : word.some((o) => o.activeLow);
    const led = ledAt(wish.show, output, i % WORD, hangs);
    if (!led) throw new Error(`no LED for output ${i}`);
    return limitFor({ ...led, chip, side: hangs ? 'low' : 'high', leds: word.length }, output.amps ?? wish.amps);
  });
}

function driving({ show, buffered }: Asked, memory: ChipSpec): ChipSpec {
  if (show === 'loads') return driverChip();
  return buffered ? bufferChip() : memory;
}

function ledAt(show: BuildRequest['show'], output: RequestedOutput, bit: number, hangs: boolean): KindSheet['leds'][number] | undefined {
  if (show === 'bar') return sheetOf(ledBar, { colour: 'green' }).leds[bit];
  if (show === 'digit') {
    const segment = [...SEGMENTS, 'DP'][bit] ?? 'DP';
    return sheetOf(hangs ? digitCommonAnode : digitCommonCathode, { colour: 'red' }).leds.find((l) => l.led.name === segment);
  }
  return sheetOf(led, { colour: colourAt(output, bit) }).leds[0];
}
