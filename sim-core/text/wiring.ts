/** The words of a build sheet: what each end of a wire is, and the cautions of a bench. */
import { siFormat } from '../units/quantity.ts';

/** One end of a wire as a builder looks for it. */
export type EndOfWire =
  | { readonly is: 'rail'; readonly sign: '+' | '-' }
  | { readonly is: 'terminal'; readonly part: string; readonly pin: string }
  | { readonly is: 'pin'; readonly part: string; readonly pin: string; readonly name: string }
  | { readonly is: 'pole'; readonly part: string; readonly pole: number; readonly poles: number; readonly called?: string }
  /** a part that is no chip and no switch; pin: absent where its pins are alike; segment: it is one of a display */
  | {
      readonly is: 'part';
      readonly part: string;
      readonly pin?: string;
      readonly name?: string;
      readonly segment?: true;
      readonly label?: string;
    }
  | { readonly is: 'row' };

function sayEnd(end: EndOfWire): string {
  switch (end.is) {
    case 'rail':
      return end.sign === '+' ? '+ rail' : '− rail';
    case 'terminal':
      return `${end.part}, terminal ${end.pin === '-' ? '−' : end.pin}`;
    case 'pin':
      return `${end.part}, pin ${end.pin}${end.name === end.pin ? '' : ` (${end.name})`}`;
    case 'pole':
      return `${end.part}${end.poles > 1 ? `, pole ${end.pole + 1}` : ''}${end.called === undefined ? '' : ` (${end.called})`}`;
    case 'part': {
      const name = end.name === undefined || end.name === end.pin ? '' : end.name;
      const pin = end.pin === undefined ? name && ` ${name}` : `, pin ${end.pin}${name && ` (${end.segment ? `segment ${name}` : name})`}`;
      return `${end.part}${pin}${end.label === undefined ? '' : ` (${end.label})`}`;
    }
    case 'row':
      return 'an otherwise empty row';
  }
}

export const sayConnection = (from: EndOfWire, to: EndOfWire): string => `${sayEnd(from)} to ${sayEnd(to)}`;

/** How a part stands that is no chip: what its legs are and where they go. */
export type Stance =
  | { readonly is: 'two-leg'; readonly legs: ReadonlyArray<{ readonly name?: string; readonly hole: string; readonly to: EndOfWire }> }
  | {
      readonly is: 'rows';
      readonly first: string;
      readonly opposite: string;
      readonly left: boolean;
      readonly mark: 'notch' | 'poles' | 'display' | 'pin 1';
    }
  | { readonly is: 'button'; readonly pairs: ReadonlyArray<readonly [string, string]> }
  | { readonly is: 'in line'; readonly legs: ReadonlyArray<{ readonly name: string; readonly hole: string }> }
  | { readonly is: 'beside the boards' };

/** What the mark of a package is called, and on which side of pin 1 it is. */
const MARKS = {
  notch: (left: boolean) => `notch to the ${left ? 'left (row 1)' : 'right'}`,
  poles: (left: boolean) => `pole 1 on the ${left ? 'left, numbers upright' : 'right, numbers upside down'}`,
  display: (left: boolean) => (left ? 'upright: pin 1 bottom left, decimal point bottom right' : 'upside down: decimal point top left'),
  'pin 1': (left: boolean) => `pin 1 on the ${left ? 'left' : 'right'}`,
} as const;

/** "pin 1 in d3, the last pin in h3 across the trench, notch to the left (row 1)". */
export function sayStance(stance: Stance): string {
  switch (stance.is) {
    case 'two-leg':
      return stance.legs.map(({ name, hole, to }) => `${name === undefined ? '' : `${name} `}${hole}: to ${sayEnd(to)}`).join('; ');
    case 'rows':
      return `pin 1 in ${stance.first}, the last pin across the trench in ${stance.opposite}; ${MARKS[stance.mark](stance.left)}`;
    case 'button':
      return `across the trench: ${stance.pairs.map((p) => p.join(' and ')).join(' are one contact, ')} the other; a press connects the two`;
    case 'in line':
      return stance.legs.map(({ name, hole }) => `${name} in ${hole}`).join(', ');
    case 'beside the boards':
      return 'beside the boards';
  }
}

export interface BenchTraits {
  /** its supply [V, A] */
  readonly volts: number;
  readonly amps: number;
  readonly chips: readonly string[];
  readonly leds: boolean;
  /** parts with polarity */
  readonly polarised: readonly string[];
  /** memories that light erases */
  readonly windows: readonly string[];
  /** parts with a winding; of these relays, and motors */
  readonly coils: readonly string[];
  readonly relays: readonly string[];
  readonly motors: readonly string[];
  /** memories that have a pin for more than their supply voltage */
  readonly highVoltage: readonly string[];
}

/** How the names of holes are read; boards: their ids. */
export function sayHoleNames(boards: readonly string[]): string {
  const [first = 'B1', second] = boards;
  const board = second === undefined ? '' : ` ${second}:d3 is a hole of board ${second}; without a name, board ${first} is meant.`;
  return `d3 is column d, row 3, as printed on the board. +j7 is hole 7 of the + rail beside column j, counted from row 1’s end of the board without the gaps; -a7 is hole 7 of the − rail beside column a.${board}`;
}

export function sayCautions(t: BenchTraits): readonly string[] {
  const set = `Set the supply to ${siFormat(t.volts, 'V')} and its current limit to ${siFormat(t.amps, 'A')} before you connect anything, then switch it off. Switch it off before you move a wire or a part. What gets too hot to touch is wrong: switch off at once.`;
  const list = (ids: readonly string[]) => ids.join(', ');
  return [
    set,
    ...(t.chips.length > 0
      ? [
          `${list(t.chips)}: static discharge damages chips. Touch grounded metal first, keep chips in conductive foam and hold them by their ends. Pin 1 is at the notch or the dot; a reversed chip shorts the supply through its protection diodes and is destroyed.`,
        ]
      : []),
    ...(t.leds
      ? [
          'An LED conducts one way only: its long leg is the anode, the flat on its rim marks the cathode. Never use one without its resistor.',
        ]
      : []),
    ...(t.polarised.length > 0 ? [`${list(t.polarised)}: observe polarity, + and − are marked. Reversed, it heats up and may burst.`] : []),
    ...(t.windows.length > 0
      ? [
          `${list(t.windows)}: light through the window erases it. Cover the window with an opaque label. The UV light of an eraser injures eyes and skin: use only a closed eraser with an interlock.`,
        ]
      : []),
    ...(t.highVoltage.length > 0
      ? [
          `${list(t.highVoltage)}: it is programmed with a voltage that no other part here withstands. Program it in a programmer, not on this board.`,
        ]
      : []),
    ...(t.coils.length > 0
      ? [
          `${list(t.coils)}: a winding that is switched off drives its voltage far beyond the supply. Fit its flyback diode before you switch on, cathode at plus.`,
        ]
      : []),
    ...(t.relays.length > 0
      ? [
          `${list(t.relays)}: switch low voltages only. Mains does not belong on a solderless breadboard, whatever its contacts are rated for.`,
        ]
      : []),
    ...(t.motors.length > 0
      ? [`${list(t.motors)}: a motor that is held draws its stall current. It gets hot, and so does the transistor that feeds it.`]
      : []),
    'This sheet is computed from a model. The data sheets of your actual parts come first, and so do the electrical safety rules where you live.',
  ];
}
