/** The resistor and the current of each output's LED, before anything is built: by what drives it, which LED it is and what was asked for. */
import { SEGMENTS } from '../logic/codes.ts';
import { partKind } from '../parts/catalogue.ts';
import type { LedColour } from '../parts/figures/junctions.ts';
import { led } from '../parts/led.ts';
import { ledBar } from '../parts/led-bar-graph.ts';
import type { ChipSpec } from '../parts/part.ts';
import { digitCommonAnode, digitCommonCathode } from '../parts/seven-segment-display.ts';
import { type BuildRequest, type RequestedOutput, WORD } from './build-request.ts';
import { completed } from './builder-state.ts';
import { bufferChip, driverChip } from './drivers.ts';
import { chipOf, contentsOfKind, type KindContents } from './kind-contents.ts';
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

/** Its LED is connected to plus and is pulled down: by a low level, or by a switch that a high level closes. */
export const fromPlus = ({ show }: Pick<BuildRequest, 'show'>, { activeLow }: RequestedOutput): boolean =>
  show === 'loads' || activeLow === true;

/** One for each output, in order; undefined where there is no such memory. */
export function limitsOf(request: Asked): readonly CurrentLimit[] | undefined {
  const kind = partKind(request.memory);
  if (kind?.group !== 'memory') return undefined;
  const memory = chipOf(kind, completed(kind, { id: '', kind: kind.id }));
  const chip = driving(request, memory);
  return request.outputs.map((output, i): CurrentLimit => {
    const word = request.outputs.slice(i - (i % WORD), i - (i % WORD) + WORD);
    const fromPlusRail = request.show === 'leds' || request.show === 'loads' ? fromPlus(request, output) : word.some((o) => o.activeLow);
    const led = ledAt(request.show, output, i % WORD, fromPlusRail);
    if (!led) throw new Error(`no LED for output ${i}`);
    return limitFor({ ...led, chip, side: fromPlusRail ? 'low' : 'high', leds: word.length }, output.amps ?? request.amps);
  });
}

function driving({ show, buffered }: Asked, memory: ChipSpec): ChipSpec {
  if (show === 'loads') return driverChip();
  return buffered ? bufferChip() : memory;
}

function ledAt(
  show: BuildRequest['show'],
  output: RequestedOutput,
  bit: number,
  fromPlusRail: boolean,
): KindContents['leds'][number] | undefined {
  if (show === 'bar') return contentsOfKind(ledBar, { colour: 'green' }).leds[bit];
  if (show === 'digit') {
    const segment = [...SEGMENTS, 'DP'][bit] ?? 'DP';
    return contentsOfKind(fromPlusRail ? digitCommonAnode : digitCommonCathode, { colour: 'red' }).leds.find((l) => l.led.name === segment);
  }
  return contentsOfKind(led, { colour: colourAt(output, bit) }).leds[0];
}
