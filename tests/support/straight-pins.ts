/** The plainest pin map of a table. */
import type { PinMap } from '../../sim-core/logic/pin-map.ts';
import type { TruthTable } from '../../sim-core/logic/truth-table.ts';

/** Input i on Ai, output i on Di of the first memory, those beyond on the next; what is over is tied low. */
export function straightPins(table: TruthTable, addressPins: number, dataPins = 8): PinMap {
  const address = Array.from({ length: addressPins }, (_, pin) => (pin < table.inputs.length ? pin : ('low' as const)));
  const chips = Array.from({ length: Math.ceil(table.outputs.length / dataPins) }, (_, chip) => ({
    address,
    data: Array.from({ length: dataPins }, (_, pin) => {
      const output = chip * dataPins + pin;
      return output < table.outputs.length ? output : ('unused' as const);
    }),
  }));
  return { chips, activeLow: 0, fill: 0xff, elsewhere: 'fill' };
}
