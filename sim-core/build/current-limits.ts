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
import { type LedPath, limitFor } from './value-selection.ts';

export type LoadRequest = Pick<BuildRequest, 'outputs' | 'memory' | 'show' | 'buffered' | 'amps'>;

export interface CurrentLimit {
  readonly ohms: number;
  /** what flows with parts as drawn [A]: what was asked for, or up to a step of E12 less, where it can be had */
  readonly amps: number;
}

const LED_COLOURS: readonly LedColour[] = ['green', 'red', 'amber'];
export const colourAt = (output: RequestedOutput, bit: number): LedColour =>
  output.colour ?? LED_COLOURS[bit % LED_COLOURS.length] ?? 'red';

/** Its LED is connected to plus and is pulled down: by a low level, or by a switch that a high level closes. */
export const fromPlus = ({ show }: Pick<BuildRequest, 'show'>, { activeLow }: RequestedOutput): boolean =>
  show === 'loads' || activeLow === true;

/** One for each output, in order; undefined where there is no such memory. */
export function limitsOf(request: LoadRequest): readonly CurrentLimit[] | undefined {
  const by = driving(request);
  return by && request.outputs.map((output, i) => limitFor(pathOf(request, by.chip, output, i), output.amps ?? request.amps));
}

/** The LED of an output, and what gives or takes its current. */
export function pathOf(request: LoadRequest, chip: ChipSpec, output: RequestedOutput, i: number): LedPath {
  const low = fromPlus(request, output);
  const led = ledAt(request.show, output, i % WORD, low);
  if (!led) throw new Error(`no LED for output ${i}`);
  return { ...led, chip, side: low ? 'low' : 'high' };
}

export interface Driving {
  readonly chip: ChipSpec;
  /** as a sentence names it */
  readonly title: string;
}

/** What drives the LEDs; undefined where there is no such memory. */
export function driving({ show, buffered, memory }: LoadRequest): Driving | undefined {
  const kind = partKind(memory);
  if (kind?.group !== 'memory') return undefined;
  if (show === 'loads') return { chip: driverChip(), title: 'a Darlington array' };
  return buffered
    ? { chip: bufferChip(), title: 'an octal buffer' }
    : { chip: chipOf(kind, completed(kind, { id: '', kind: kind.id })), title: `${kind.title} itself` };
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
