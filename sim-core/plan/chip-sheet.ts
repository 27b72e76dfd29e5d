/** What a part kind is made of, read from its own wiring: the chip in it, and its lamps. */
import type { Junction } from '../devices/laws.ts';
import type { ChipSpec, Lamp, Params, PartKind } from '../parts/part.ts';

export interface KindSheet {
  readonly chip?: ChipSpec;
  readonly lamps: readonly { readonly anode: string; readonly cathode: string; readonly junction: Junction; readonly lamp: Lamp }[];
}

export function sheetOf(kind: PartKind, params: Params): KindSheet {
  let found: ChipSpec | undefined;
  const lamps: KindSheet['lamps'][number][] = [];
  kind.wire(
    {
      conductor() {},
      capacitor() {},
      contact() {},
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
  return { ...(found ? { chip: found } : {}), lamps };
}

/** The chip of a kind that is known to have one. */
export function chipOf(kind: PartKind, params: Params): ChipSpec {
  const { chip } = sheetOf(kind, params);
  if (!chip) throw new Error(`${kind.id} has no chip in it`);
  return chip;
}
