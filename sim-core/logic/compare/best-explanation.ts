/** Explanations that leave some bits over: one simple change of the address pins, and the best match of the data pins to go with it. */
import { bitCount } from '../../units/bit-count.ts';
import { complexity, nothingChanged, type Transform, wantedAddresses } from './transform.ts';

/** Rows by which a whole image may be shifted. */
const SHIFTS = [1, -1, 2, -2];
/** Rows looked at first, and an odd step that spreads them. */
const PART = 1024;
const SPREAD = 40_503;

/** care: bits of each wanted byte that count. Answers the transform of least cost, cost being bits to say it plus bits to say what is still wrong. */
export function nearestReading(wanted: Uint8Array, care: Uint8Array, seen: Uint8Array, addressPins: number, dataPins: number): Transform {
  let best = nothingChanged(addressPins, dataPins);
  let least = Number.POSITIVE_INFINITY;
  const all = Uint32Array.from(wanted.keys());
  // spread over the image; what is wrong in a part is wrong in the whole, so a part can rule a change out
  const part = Uint32Array.from({ length: Math.min(PART, wanted.length) }, (_, i) => Math.imul(i, SPREAD) & (wanted.length - 1));
  const columnsOf = (rows: Uint32Array) => ({ rows, columns: packed(seen, rows, dataPins) });
  const [whole, sample] = [columnsOf(all), columnsOf(part)];
  const match = (from: Uint32Array, { rows, columns }: typeof whole) => {
    const places = rows.map((x) => from[x] ?? 0);
    return matched(packed(wanted, places, dataPins), packed(care, places, dataPins), columns);
  };
  for (const t of addressChanges(addressPins, dataPins)) {
    const from = wantedAddresses(t);
    if (explanationCost(t, match(from, sample).wrong) >= least) continue;
    const { data, dataInverted, wrong } = match(from, whole);
    const changed = { ...t, data, dataInverted };
    const cost = explanationCost(changed, wrong);
    if (cost < least) {
      least = cost;
      best = changed;
    }
  }
  return best;
}

/** Bits that it takes to say a transform and the places of the bits it does not explain. */
export const explanationCost = (t: Transform, wrong: number): number =>
  complexity(t) + wrong * (t.address.length + Math.ceil(Math.log2(t.data.length + 1)));

function* addressChanges(n: number, m: number): Generator<Transform> {
  const none = nothingChanged(n, m);
  yield none;
  yield { ...none, address: none.address.toReversed() };
  yield { ...none, addressInverted: 2 ** n - 1 };
  for (const shift of SHIFTS) if (Math.abs(shift) < 2 ** n) yield { ...none, shift };
  for (let i = 0; i < n; i++) {
    yield { ...none, addressInverted: 1 << i };
    for (let k = 0; k < i; k++) yield { ...none, address: none.address.map((p) => (p === i ? k : p === k ? i : p)) };
  }
}

/** One column of bits a data pin, 32 rows a word. places: which byte stands in each row. */
function packed(bytes: Uint8Array, places: Uint32Array, dataPins: number): Uint32Array[] {
  const columns = Array.from({ length: dataPins }, () => new Uint32Array((places.length + 31) >> 5));
  for (let x = 0; x < places.length; x++) {
    const byte = bytes[places[x] ?? 0] ?? 0;
    if (byte === 0) continue;
    for (let j = 0; j < dataPins; j++) {
      const column = columns[j];
      if ((byte >> j) & 1 && column) column[x >> 5] = (column[x >> 5] ?? 0) | (1 << (x & 31));
    }
  }
  return columns;
}

/** The assignment of wanted to seen data pins, each straight or inverted, that leaves fewest bits wrong: by dynamic programming over sets of pins. */
function matched(
  values: readonly Uint32Array[],
  counts: readonly Uint32Array[],
  seen: readonly Uint32Array[],
): { data: number[]; dataInverted: number; wrong: number } {
  const m = values.length;
  const pair = values.map((v, j) =>
    seen.map((s) => {
      let differ = 0;
      let all = 0;
      for (let i = 0; i < v.length; i++) {
        const care = counts[j]?.[i] ?? 0;
        if (care === 0) continue;
        differ += bitCount(((v[i] ?? 0) ^ (s[i] ?? 0)) & care);
        all += bitCount(care);
      }
      const inverted = all - differ < differ;
      return { wrong: inverted ? all - differ : differ, inverted };
    }),
  );
  // moving or inverting a pin costs a little, so that of equal matches the plain one is taken
  const price = (j: number, k: number) => (pair[j]?.[k]?.wrong ?? 0) + (j === k ? 0 : 0.01) + (pair[j]?.[k]?.inverted ? 0.01 : 0);
  const least = new Float64Array(2 ** m).fill(Number.POSITIVE_INFINITY);
  const choice = new Int8Array(2 ** m);
  least[0] = 0;
  for (let set = 0; set < 2 ** m; set++) {
    const j = bitCount(set);
    for (let k = 0; k < m && j < m; k++) {
      if ((set >> k) & 1) continue;
      const cost = (least[set] ?? 0) + price(j, k);
      if (cost >= (least[set | (1 << k)] ?? 0)) continue;
      least[set | (1 << k)] = cost;
      choice[set | (1 << k)] = k;
    }
  }
  const data = new Array<number>(m).fill(0);
  for (let set = 2 ** m - 1, j = m - 1; j >= 0; j--) {
    data[j] = choice[set] ?? 0;
    set &= ~(1 << (choice[set] ?? 0));
  }
  const dataInverted = data.reduce((mask, k, j) => mask | (pair[j]?.[k]?.inverted ? 1 << j : 0), 0);
  return { data, dataInverted, wrong: data.reduce((sum, k, j) => sum + (pair[j]?.[k]?.wrong ?? 0), 0) };
}
