/** Software data protection: the sequences of bytes that switch it on and off, recognised among the bytes that are loaded. */

export interface SoftwareProtection {
  readonly on: boolean;
  /** a byte is loaded: a step of a sequence, an ordinary byte, or one that protection keeps out */
  take(address: number, byte: number): 'step' | 'byte' | 'refused';
  /** the steps taken so far led nowhere: were they ordinary bytes? */
  readonly stepsWereBytes: boolean;
  /** the internal cycle has ended: what a completed sequence asked for holds from now on */
  close(): void;
}

type Step = readonly [place: 'first' | 'second', byte: number];

/** SOURCES.md S4; the same bytes at other addresses in larger memories. */
const ENABLE: readonly Step[] = [
  ['first', 0xaa],
  ['second', 0x55],
  ['first', 0xa0],
];
const DISABLE: readonly Step[] = [
  ['first', 0xaa],
  ['second', 0x55],
  ['first', 0x80],
  ['first', 0xaa],
  ['second', 0x55],
  ['first', 0x20],
];

/** places: the two addresses that the sequences use. */
export function makeSoftwareProtection(places: Readonly<Record<'first' | 'second', number>>, protectedBefore: boolean): SoftwareProtection {
  let on = protectedBefore;
  let steps = 0;
  let matching = true;
  let asked: boolean | undefined;

  return {
    get on() {
      return on;
    },
    get stepsWereBytes() {
      return asked === undefined && !on;
    },
    take(address, byte) {
      const fits = (sequence: readonly Step[]) => {
        const step = sequence[steps];
        return step !== undefined && places[step[0]] === address && step[1] === byte;
      };
      if (matching) {
        const [enables, disables] = [fits(ENABLE), fits(DISABLE)];
        if (enables || disables) {
          steps += 1;
          if (enables && steps === ENABLE.length) asked = true;
          else if (disables && steps === DISABLE.length) asked = false;
          matching = asked === undefined;
          return 'step';
        }
        matching = false;
      }
      return on && asked === undefined ? 'refused' : 'byte';
    },
    close() {
      on = asked ?? on;
      asked = undefined;
      steps = 0;
      matching = true;
    },
  };
}
