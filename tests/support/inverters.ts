/** Benches of one package of six Schmitt inverters, in the text notation. */

/** Holes of the six inverters' inputs and outputs. */
const INPUTS = ['a10', 'a12', 'a14', 'j15', 'j13', 'j11'];
const OUTPUTS = ['b11', 'b13', 'b15', 'i16', 'i14', 'i12'];
const toMinus = (holes: readonly string[]) =>
  holes.map((hole, i) => `wire G${i} from ${hole} to ${hole.startsWith('a') ? '-a' : '-j'}${20 + i}`).join('\n');

/** Six inverters, supplied; the first `used` are left to `more`. */
export const inverters = (family: string, used: number, more: string) => `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire P1 from PS1.+ to +j1
  wire P2 from PS1.- to -j1
  wire P3 from -j2 to -a1
  schmitt-inverter U1 ${family} at e10
  wire V from j10 to +j5
  wire G from a16 to -a5
  capacitor C9 100n from i10 to -j9
  ${toMinus(INPUTS.slice(used))}
  ${more}`;

/** The first n of them, each driving the next and the last the first. */
export const ring = (family: string, n: number) =>
  inverters(
    family,
    n,
    INPUTS.slice(0, n)
      .map((hole, i) => `wire K${i} from ${OUTPUTS[(i + n - 1) % n]} to ${hole.replace('a', 'c').replace('j', 'h')}`)
      .join('\n'),
  );
