/** The digest SHA-256 of a text (FIPS 180-4), each UTF-16 unit taken as two bytes, high byte first: tells two texts apart, whatever their length. */

const PRIMES = 64;

/** The first 32 bits behind the point of the roots of the first primes. */
function rootBits(root: (prime: number) => number): Uint32Array {
  const bits = new Uint32Array(PRIMES);
  for (let n = 2, found = 0; found < PRIMES; n++) {
    let prime = true;
    for (let d = 2; d * d <= n && prime; d++) prime = n % d !== 0;
    if (prime) bits[found++] = (root(n) % 1) * 2 ** 32;
  }
  return bits;
}
const K = rootBits(Math.cbrt);
const START = rootBits(Math.sqrt).slice(0, 8);

const turn = (x: number, by: number): number => (x >>> by) | (x << (32 - by));

/** 64 hexadecimal digits. */
export function sha256(text: string): string {
  const words = padded(text);
  const hash = START.slice();
  const w = new Uint32Array(64);
  for (let block = 0; block < words.length; block += 16) {
    w.set(words.subarray(block, block + 16));
    for (let t = 16; t < 64; t++) {
      const [x, y] = [w[t - 15] as number, w[t - 2] as number];
      const s0 = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3);
      const s1 = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10);
      w[t] = s0 + s1 + (w[t - 16] as number) + (w[t - 7] as number);
    }
    mix(hash, w);
  }
  return Array.from(hash, (h) => h.toString(16).padStart(8, '0')).join('');
}

function mix(hash: Uint32Array, w: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = hash as unknown as [number, number, number, number, number, number, number, number];
  for (let t = 0; t < 64; t++) {
    const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const one = (h + s1 + ((e & f) ^ (~e & g)) + (K[t] as number) + (w[t] as number)) | 0;
    const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const two = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  for (const [i, v] of [a, b, c, d, e, f, g, h].entries()) hash[i] = (hash[i] as number) + v;
}

/** The text's bits, a 1, zeros, and how many bits there were, in whole blocks of sixteen words. */
function padded(text: string): Uint32Array {
  const words = new Uint32Array(16 * Math.ceil((2 * text.length + 9) / 64));
  const put = (i: number, unit: number) => {
    words[i >> 1] = (words[i >> 1] as number) | (unit << (i % 2 === 0 ? 16 : 0));
  };
  for (let i = 0; i < text.length; i++) put(i, text.charCodeAt(i));
  put(text.length, 0x8000);
  words[words.length - 2] = Math.floor(text.length / 2 ** 28);
  words[words.length - 1] = text.length * 16;
  return words;
}
