/** What a part kind is made of, read from its own wiring: the chip in it, its LEDs and its contacts. */
import type { Junction } from '../devices/device-models.ts';
import type { ChipSpec, Contact, Led, Params, PartKind } from '../parts/part.ts';

export interface KindContents {
  readonly chip?: ChipSpec;
  readonly contacts: readonly { readonly pole: number; readonly contact: Contact }[];
  readonly leds: readonly { readonly anode: string; readonly cathode: string; readonly junction: Junction; readonly led: Led }[];
}

export function contentsOfKind(kind: PartKind, params: Params): KindContents {
  let found: ChipSpec | undefined;
  const contacts: KindContents['contacts'][number][] = [];
  const leds: KindContents['leds'][number][] = [];
  kind.connect(
    {
      conductor() {},
      capacitor() {},
      contact: (_a, _b, pole, contact) => void contacts.push({ pole, contact }),
      supply() {},
      transistor() {},
      junction(anode, cathode, junction, led) {
        if (led) leds.push({ anode, cathode, junction, led });
      },
      chip(spec) {
        found = spec;
      },
    },
    params,
  );
  return { ...(found ? { chip: found } : {}), contacts, leds };
}

/** The chip of a kind that is known to have one. */
export function chipOf(kind: PartKind, params: Params): ChipSpec {
  const { chip } = contentsOfKind(kind, params);
  if (!chip) throw new Error(`${kind.id} has no chip in it`);
  return chip;
}
