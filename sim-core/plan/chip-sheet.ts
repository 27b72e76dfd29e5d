/** What a part kind is made of, read from its own wiring: the chip in it, its lamps and its contacts. */
import type { Junction } from '../devices/laws.ts';
import type { ChipSpec, Contact, Lamp, Params, PartKind } from '../parts/part.ts';

export interface KindSheet {
  readonly chip?: ChipSpec;
  readonly contacts: readonly { readonly pole: number; readonly contact: Contact }[];
  readonly lamps: readonly { readonly anode: string; readonly cathode: string; readonly junction: Junction; readonly lamp: Lamp }[];
}

export function sheetOf(kind: PartKind, params: Params): KindSheet {
  let found: ChipSpec | undefined;
  const contacts: KindSheet['contacts'][number][] = [];
  const lamps: KindSheet['lamps'][number][] = [];
  kind.wire(
    {
      conductor() {},
      capacitor() {},
      contact: (_a, _b, pole, contact) => void contacts.push({ pole, contact }),
      supply() {},
      transistor() {},
      junction(anode, cathode, junction, lamp) {
        if (lamp) lamps.push({ anode, cathode, junction, lamp });
      },
      chip(spec) {
        found = spec;
      },
    },
    params,
  );
  return { ...(found ? { chip: found } : {}), contacts, lamps };
}

/** The chip of a kind that is known to have one. */
export function chipOf(kind: PartKind, params: Params): ChipSpec {
  const { chip } = sheetOf(kind, params);
  if (!chip) throw new Error(`${kind.id} has no chip in it`);
  return chip;
}
