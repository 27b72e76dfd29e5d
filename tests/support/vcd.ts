/** A reader of value change dumps, written for the tests from the grammar of IEEE 1364-2005 clause 18: keyword sections, then #time and changes. */

export interface Dump {
  /** of one tick */
  readonly picoseconds: number;
  /** 'scope.name' → changes in order of time */
  readonly signals: ReadonlyMap<string, ReadonlyArray<{ readonly tick: number; readonly value: string }>>;
}

const UNITS: Readonly<Record<string, number>> = { ps: 1, ns: 1e3, us: 1e6 };

/** Throws at anything that the grammar does not have. */
export function readVcd(text: string): Dump {
  const words = text.split(/\s+/).filter((w) => w !== '');
  const names = new Map<string, string>();
  /** by code: bits of a wire, 0 for a real */
  const widths = new Map<string, number>();
  const signals = new Map<string, { tick: number; value: string }[]>();
  const scope: string[] = [];
  let picoseconds = Number.NaN;
  let tick = -1;
  let i = 0;
  const section = (): string[] => {
    const end = words.indexOf('$end', i);
    if (end < 0) throw new Error(`no $end after ${words[i]}`);
    const inside = words.slice(i + 1, end);
    i = end + 1;
    return inside;
  };
  const change = (code: string | undefined, value: string) => {
    const name = names.get(code ?? '');
    if (name === undefined || tick < 0) throw new Error(`a change of ${code} that is not declared, or before any time`);
    signals.get(name)?.push({ tick, value });
  };
  let declared = false;
  while (i < words.length) {
    const word = words[i] as string;
    if (!declared) {
      const inside = section();
      if (word === '$timescale')
        picoseconds = Number(inside.join('').replace(/[a-z]+$/, '')) * (UNITS[/[a-z]+$/.exec(inside.join(''))?.[0] ?? ''] ?? Number.NaN);
      else if (word === '$scope') scope.push(inside[1] ?? '');
      else if (word === '$upscope') scope.pop();
      else if (word === '$var') {
        const [type, size, code = '', name = '', range, ...rest] = inside;
        const path = [...scope, name].join('.');
        const isNamed = /^[A-Za-z_][\w$]*$/.test(name) && /^[!-~]+$/.test(code) && !names.has(code) && !signals.has(path);
        if (!['wire', 'real'].includes(type ?? '') || !(Number(size) > 0) || !isNamed || rest.length > 0) throw new Error(inside.join(' '));
        if (range !== undefined && range !== `[${Number(size) - 1}:0]`) throw new Error(`${name} has ${size} bits, not ${range}`);
        names.set(code, path);
        widths.set(code, type === 'real' ? 0 : Number(size));
        signals.set(path, []);
      } else if (word === '$enddefinitions') declared = true;
      else if (word !== '$version' && word !== '$date' && word !== '$comment') throw new Error(word);
      continue;
    }
    if (word.startsWith('#')) {
      const next = Number(word.slice(1));
      if (!Number.isInteger(next) || next <= tick) throw new Error(`time ${word} after ${tick}`);
      tick = next;
      i++;
    } else if (word === '$dumpvars' || word === '$end') i++;
    else if (/^[rR]/.test(word)) {
      if (!Number.isFinite(Number(word.slice(1))) || widths.get(words[i + 1] ?? '') !== 0) throw new Error(word);
      change(words[i + 1], word.slice(1));
      i += 2;
    } else if (/^b[01xz]+$/.test(word)) {
      const bits = widths.get(words[i + 1] ?? '') ?? 0;
      if (word.length - 1 > bits) throw new Error(`${word} has more than ${bits} bits`);
      change(words[i + 1], word.slice(1));
      i += 2;
    } else if (/^[01xz]/.test(word)) {
      if (widths.get(word.slice(1)) !== 1) throw new Error(`${word} is no single wire`);
      change(word.slice(1), word[0] as string);
      i++;
    } else throw new Error(word);
  }
  return { picoseconds, signals };
}
