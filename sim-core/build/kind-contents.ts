/** What a part kind is made of, read from its own wiring: the chip in it, its LEDs, its contacts and its supply, between pins by number. */
import type { Junction } from '../devices/device-models.ts';
import type { ChipSpec, Contact, Led, Params, PartKind } from '../parts/part.ts';

/** What a part of a kind is made of, between pins by number; a supply's voltage in V. */
export interface KindContents {
  readonly chip?: ChipSpec;
  readonly contacts: readonly { readonly a: string; readonly b: string; readonly pole: number; readonly contact: Contact }[];
  readonly leds: readonly { readonly anode: string; readonly cathode: string; readonly junction: Junction; readonly led: Led }[];
  readonly supply?: { readonly plus: string; readonly minus: string; readonly volts: number };
}

/** A part of this kind asked to wire itself to a listener that only takes notes. */
export function contentsOfKind(kind: PartKind, params: Params): KindContents {
  let found: Pick<KindContents, 'chip' | 'supply'> = {};
  const contacts: KindContents['contacts'][number][] = [];
  const leds: KindContents['leds'][number][] = [];
  kind.connect(
    {
      conductor() {},
      capacitor() {},
      contact: (a, b, pole, contact) => void contacts.push({ a, b, pole, contact }),
      supply(plus, minus, { volts }) {
        found = { ...found, supply: { plus, minus, volts } };
      },
      transistor() {},
      coil() {},
      junction(anode, cathode, junction, led) {
        if (led) leds.push({ anode, cathode, junction, led });
      },
      chip(chip) {
        found = { ...found, chip };
      },
    },
    params,
  );
  return { ...found, contacts, leds };
}

/** The chip of a kind that is known to have one. */
export function chipOf(kind: PartKind, params: Params): ChipSpec {
  const { chip } = contentsOfKind(kind, params);
  if (!chip) throw new Error(`${kind.id} has no chip in it`);
  return chip;
}
