/** The words of a build sheet: what each end of a wire is, what a measurement is for, and the cautions of a bench. */
import { siFormat } from '../units/quantity.ts';

/** One end of a wire as a builder looks for it. */
export type EndOfWire =
  | { readonly is: 'rail'; readonly sign: '+' | '-' }
  | { readonly is: 'terminal'; readonly part: string; readonly pin: string }
  | { readonly is: 'pin'; readonly part: string; readonly pin: string; readonly name: string }
  | { readonly is: 'pole'; readonly part: string; readonly pole: number; readonly poles: number; readonly called?: string }
  | { readonly is: 'part'; readonly part: string; readonly label?: string }
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
    case 'part':
      return `${end.part}${end.label === undefined ? '' : ` (${end.label})`}`;
    case 'row':
      return 'an otherwise empty row';
  }
}

export const sayConnection = (from: EndOfWire, to: EndOfWire): string => `${sayEnd(from)} to ${sayEnd(to)}`;

/** The measured thing of a line of "check before power". */
export type Measured =
  /** wire: the supply's own, still disconnected */
  | { readonly what: 'rails'; readonly wire: string }
  | { readonly what: 'supply'; readonly part: string }
  | { readonly what: 'control' | 'address' | 'data'; readonly part: string; readonly pin: string; readonly line?: string }
  | { readonly what: 'drawn' };

export function sayMeasured(m: Measured): string {
  switch (m.what) {
    case 'rails':
      return `no short between the rails; wire ${m.wire} not connected yet`;
    case 'supply':
      return `supply of ${m.part}, at its empty place`;
    case 'control':
      return `${m.pin} of ${m.part}, its level for reading`;
    case 'address':
      return `${m.pin} of ${m.part}${m.line === undefined ? ', tied' : ` (${m.line}), switch open`}`;
    case 'data':
      return `${m.pin} of ${m.part}, not driven yet`;
    case 'drawn':
      return 'supply current, chips in place';
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

export function sayCautions(t: BenchTraits): readonly string[] {
  const set = `Set the supply to ${siFormat(t.volts, 'V')} and its current limit to ${siFormat(t.amps, 'A')} before you connect anything, then switch it off. Never insert or remove a part while it is on.`;
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
