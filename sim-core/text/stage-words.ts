/** The words of a build sheet's stages and checks: what is built, what a check looks at, and how it is made. */
import { siFormat } from '../units/quantity.ts';
import { enumeration } from '../units/text-list.ts';

/** A pin as it is looked for on a chip: its number first. */
export interface PinWords {
  readonly part: string;
  readonly pin: string;
  readonly name: string;
}

/** A pole of a switch, or a button, with what it is called. */
export interface PoleWords {
  readonly part: string;
  /** from 0 */
  readonly pole: number;
  readonly poles: number;
  readonly button: boolean;
  readonly called?: string;
}

/** What a check looks at. */
export type Measured =
  | { readonly what: 'rails'; readonly wire: string }
  | { readonly what: 'rail'; readonly board: string; readonly side: 'top' | 'bottom'; readonly end: 'left' | 'right' }
  | ({ readonly what: 'supply' } & PinWords)
  | ({ readonly what: 'tied'; readonly to: '+' | '-' } & PinWords)
  | ({ readonly what: 'pole'; readonly of: PoleWords; readonly closed: boolean } & PinWords)
  | { readonly what: 'joined' | 'apart'; readonly one: PinWords; readonly other: PinWords }
  | { readonly what: 'value'; readonly part: string; readonly value: string }
  | ({ readonly what: 'output' } & PinWords)
  | ({ readonly what: 'leg' } & PinWords)
  | { readonly what: 'drawn' }
  | { readonly what: 'decoupling'; readonly parts: readonly string[] }
  | { readonly what: 'look'; readonly of?: PoleWords };

/** "U1 pin 8 (A0)"; the name is left out where a pin has no other. */
const sayPin = ({ part, pin, name }: PinWords): string => `${part} pin ${pin}${name === pin ? '' : ` (${name})`}`;

/** "S1 pole 4 (G0)", "button S4 (write)". */
export function sayPoleOf({ part, pole, poles, button, called }: PoleWords): string {
  const name = called === undefined || called === '' ? '' : ` (${called})`;
  return button ? `button ${part}${name}` : `${part}${poles > 1 ? ` pole ${pole + 1}` : ''}${name}`;
}

/** What the check is for. */
export function sayMeasured(m: Measured): string {
  switch (m.what) {
    case 'rails':
      return 'no short between the rails';
    case 'rail':
      return `${m.side} rails of ${m.board}, ${m.end} end`;
    case 'supply':
      return `supply of ${m.part}, at its empty place`;
    case 'tied':
      return `${sayPin(m)} is tied to ${m.to === '+' ? 'plus' : 'GND'}`;
    case 'pole':
      return `${sayPin(m)}, ${sayPoleOf(m.of)} ${m.of.button ? (m.closed ? 'held down' : 'released') : m.closed ? 'closed' : 'open'}`;
    case 'joined':
      return `${sayPin(m.one)} connects to ${sayPin(m.other)}`;
    case 'apart':
      return `${sayPin(m.one)} and ${sayPin(m.other)} do not touch`;
    case 'value':
      return `${m.part}, ${m.value}, in its place`;
    case 'output':
      return `${sayPin(m)} and the LED behind it`;
    case 'leg':
      return `the chip’s own leg: ${sayPin(m)}`;
    case 'drawn':
      return 'supply current, all switches open';
    case 'decoupling':
      return `${enumeration(m.parts)}, all between the rails`;
    case 'look':
      return m.of ? `${sayPoleOf(m.of)} alone closed` : 'all switches open';
  }
}

/** Heading of checks that are alike, for a table. */
export const MEASURED_TITLES: Readonly<Record<Measured['what'], string>> = {
  rails: 'No short',
  rail: 'Every rail has its voltage',
  supply: 'Supply at the empty places of the chips',
  tied: 'Tied pins, at the empty places',
  pole: 'Switches and buttons',
  joined: 'Connections from chip to chip',
  apart: 'Neighbouring rows do not touch',
  value: 'Values in their places',
  output: 'LEDs, driven by a wire',
  leg: 'Each chip is where it belongs, and the right way round',
  drawn: 'Supply current',
  decoupling: 'Capacitors between the rails',
  look: 'What lights',
};

/** How a check by eye ends: "LED3 lights, no other does." */
export const sayLights = (leds: readonly string[]): string =>
  leds.length === 0 ? 'no LED lights' : `${enumeration(leds)} ${leds.length === 1 ? 'lights' : 'light'}, no other LED does`;

/** Titles of the stages. */
export const STAGE_TITLES = {
  power: 'Boards and power',
  memory: 'Memory: supply and tied pins',
  inputs: 'Inputs',
  outputs: 'Outputs',
  writing: 'Writing',
  chips: 'Chips',
} as const;

/** How a check is made; wire: the supply's plus wire, and the hole that it is pulled out of. */
export function sayHow(by: 'ohms' | 'farads' | 'volts' | 'amps' | 'eye', wire: string, hole: string): string {
  switch (by) {
    case 'ohms':
      return `Supply off, wire ${wire} pulled out of ${hole}, switches open unless said otherwise: measure resistance`;
    case 'farads':
      return `The same with a meter that measures capacitance; without one, compare their markings and their holes with the list`;
    case 'volts':
      return `Wire ${wire} back in, supply on, switches open: measure voltage`;
    case 'amps':
      return 'Supply on, all switches open: read the current of the supply';
    case 'eye':
      return 'Supply on, switches open unless said otherwise: look';
  }
}

/** What is good: "9.4 kΩ to 10.6 kΩ", "open, more than 2 MΩ", "below 5 Ω". */
export function sayGood({
  by,
  expects,
  least,
  most,
}: {
  by: 'ohms' | 'farads' | 'volts' | 'amps';
  expects?: number;
  least?: number;
  most?: number;
}): string {
  const unit = { ohms: 'Ω', farads: 'F', volts: 'V', amps: 'A' }[by];
  if (least !== undefined && most !== undefined) return `${siFormat(least, unit)} to ${siFormat(most, unit)}`;
  if (expects === undefined && least !== undefined) return `open, more than ${siFormat(least, unit)}`;
  if (most !== undefined) return `below ${siFormat(most, unit)}`;
  return least === undefined ? '' : `at least ${siFormat(least, unit)}`;
}
