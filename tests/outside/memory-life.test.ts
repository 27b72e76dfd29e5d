/** Memories against published figures of life, protection, timing and light; the sources, beside each check, are those of SOURCES.md. */
import { describe, expect, test } from 'vitest';
import type { WriteReport } from '../../sim-core/parts/part.ts';
import { kindOf, mustDo, runVector } from '../support/part-bench.ts';
import type { VectorStep } from '../vectors/vector.ts';

const write = (byte: number, seconds = 300e-9): VectorStep[] => [
  { set: { D: byte } },
  { wait: 1e-6 },
  { set: { '/WE': 0 } },
  { wait: seconds },
  { set: { '/WE': 1 } },
  { wait: 1e-6 },
  { set: { D: 'open' } },
];
const REST: VectorStep = { set: { A: 0, '/CE': 0, '/OE': 1, '/WE': 1 } };
const faults = (r: WriteReport | undefined) => r?.faults.map((f) => f.fault);

describe('life and protection of an EEPROM', () => {
  test('a cell is good for 10 000 writes at least (S2, S3, S5), counted cell by cell', () => {
    const cycle: VectorStep = { wait: 0.02 };
    const sim = mustDo('eeprom-8kx8', {
      params: { written: 9_998 },
      steps: [REST, ...write(1), cycle, ...write(2), cycle, ...write(3), cycle, { set: { A: 0x100 } }, ...write(4), cycle],
    });
    expect(sim.events.map((e) => [e.outcome, faults(e)])).toEqual([
      ['stored', []],
      ['stored', []],
      ['stored', ['worn']],
      ['stored', []],
    ]);
    expect(sim.events[2]?.faults[0]).toMatchObject({ measured: 10_001, limit: 10_000 });
    expect(sim.readings().chips[0]?.state.wear).toEqual({ address: 0, cycles: 10_001 });
  });
  test('after its supply has passed 3.8 V it waits 5 ms before a write is allowed (S2, S4, S5: typical)', () => {
    const waited = (seconds: number) =>
      mustDo('eeprom-8kx8', {
        steps: [
          REST,
          { supply: 'off' },
          { wait: 1 },
          { supply: 'on' },
          { wait: seconds },
          ...write(0x55),
          { wait: 0.02 },
          { set: { '/OE': 0 } },
          { wait: 1e-6 },
        ],
      }).events.at(-1);
    expect(waited(4.9e-3)).toMatchObject({ outcome: 'ignored', faults: [{ fault: 'just-powered', limit: 5e-3 }] });
    expect(waited(5.1e-3)).toMatchObject({ outcome: 'stored', faults: [] });
  });
  test('a wire that is moved is no new power-up', () => {
    const sim = mustDo('eeprom-8kx8', { steps: [REST, { wait: 0.01 }] });
    const wire = sim.circuit.plan.wires.find((l) => l.from === 'PS2.+');
    expect(sim.act({ do: 'move-wire', wire: wire?.id ?? '', end: 'to', point: 'B1:+a40' }).ok).toBe(true);
    expect(sim.readings().chips[0]?.state.doing).toBe('ready to write');
  });
  test('at 3.7 V it does not write, at 4.0 V it does (S2, S4, S5: 3.8 V typical)', () => {
    const at = (volts: number) =>
      mustDo('eeprom-8kx8', { volts, steps: [REST, { wait: 0.01 }, ...write(0x55), { wait: 0.02 }] }).events.at(-1);
    expect(faults(at(3.7))).toEqual(['supply-low']);
    expect(at(4.0)?.outcome).toBe('stored');
  });
  test('pulses under 15 ns are not noticed (S4, S5: typical); longer ones leave the byte uncertain until 100 ns (S4)', () => {
    const lasting = (seconds: number) =>
      mustDo('eeprom-8kx8', { contents: { '000': '00' }, steps: [REST, ...write(0x55, seconds), { wait: 0.02 }] });
    expect(lasting(13e-9).events.map((e) => e.outcome)).toEqual(['ignored']);
    expect(lasting(17e-9).events.map((e) => e.outcome)).toEqual(['uncertain']);
    expect(lasting(98e-9).events.map((e) => e.outcome)).toEqual(['uncertain']);
    expect(lasting(102e-9).events.map((e) => e.outcome)).toEqual(['stored']);
  });
  test('protection outlasts the supply and the plan', () => {
    const step = (address: number, byte: number): VectorStep[] => [{ set: { A: address } }, ...write(byte), { wait: 20e-6 }];
    const protect = [...step(0x1555, 0xaa), ...step(0x0aaa, 0x55), ...step(0x1555, 0xa0), { wait: 0.02 }];
    const sim = mustDo('eeprom-8kx8', { steps: [REST, ...protect] });
    expect(sim.events.map((e) => e.command)).toEqual([true, true, true]);
    const contents = sim.plan().memories.U1;
    expect(contents).toBeDefined();
    const later = mustDo('eeprom-8kx8', { contents: contents!, steps: [REST, ...step(0, 0x11)] });
    expect(later.events.map((e) => [e.outcome, faults(e)])).toEqual([['ignored', ['protected']]]);
  });
  test('page-mode sheets name no longest pulse (S4, S5), the 2K × 8 names one of 1 µs (S2)', () => {
    const steps = [REST, ...write(0x55, 1), { wait: 0.02 }];
    expect(mustDo('eeprom-8kx8', { steps }).events.map((e) => [e.outcome, faults(e)])).toEqual([['stored', []]]);
    expect(mustDo('eeprom-2kx8', { steps }).events.map((e) => [e.outcome, faults(e)])).toEqual([['stored', ['pulse-long']]]);
  });
});

/** Bits of a hexadecimal digit. */
const onesOf = (digit: string): number => [...Number.parseInt(digit, 16).toString(2)].filter((c) => c === '1').length;

describe('a static RAM', () => {
  const ON: VectorStep = { set: { A: 0, '/CS': 0, '/OE': 0, '/WE': 1 } };
  const bytes = (image: Readonly<Record<string, string>> | undefined) =>
    Object.entries(image ?? {})
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([, row]) => row)
      .join('');
  const off: VectorStep[] = [{ supply: 'off' }, { wait: 1 }];

  test('has lost everything when the supply comes back, and holds chance instead: half of all bits are 1', () => {
    const contents = { '000': '00'.repeat(512), '200': '00'.repeat(512), '400': '00'.repeat(512), '600': '00'.repeat(512) };
    const kept = mustDo('static-ram-2kx8', { contents, steps: [ON, { wait: 1 }, { see: { D: 0 } }] });
    expect(bytes(kept.plan().memories.U1)).toBe('00'.repeat(2048));
    expect(mustDo('static-ram-2kx8', { contents, steps: [ON, ...off] }).plan().memories.U1).toEqual({});
    const back = () =>
      bytes(mustDo('static-ram-2kx8', { contents, steps: [ON, ...off, { supply: 'on' }, { wait: 0.01 }] }).plan().memories.U1);
    const first = back();
    expect(first).toHaveLength(4096);
    const ones = [...first].reduce((n, digit) => n + onesOf(digit), 0);
    // 16 384 bits: five standard deviations are 320
    expect(Math.abs(ones - 8192)).toBeLessThan(320);
    expect(back()).toBe(first);
  });
  test('keeps its contents while the supply stays above the 2 V at which low-power types hold them, and loses them below (S6)', () => {
    const contents = { '000': '5A' };
    const dip = (seconds: number): VectorStep[] => [ON, { wait: 1e-3 }, { supply: 'off' }, { wait: seconds }];
    const lowest = (seconds: number) => mustDo('static-ram-2kx8', { contents, steps: dip(seconds) }).readings().chips[0]?.supply ?? 0;
    const left = (seconds: number) =>
      mustDo('static-ram-2kx8', { contents, steps: [...dip(seconds), { supply: 'on' }, { wait: 1e-3 }] })
        .plan()
        .memories.U1?.['000']?.slice(0, 2);
    expect(lowest(10e-6)).toBeGreaterThan(2);
    expect(lowest(10e-6)).toBeLessThan(3);
    expect(left(10e-6)).toBe('5A');
    expect(lowest(75e-6)).toBeLessThan(1);
    expect(left(75e-6)).not.toBe('5A');
  });
  test('32K × 8: 50 ns of /WE, 60 ns of address, 30 ns of data before its end are enough, and less is not (S8)', () => {
    const written = (address: number, pulse: number, data: number) => {
      const sim = mustDo('static-ram-32kx8', {
        contents: { '0000': '00000000' },
        steps: [
          { set: { A: 0, '/CS': 0, '/OE': 1, '/WE': 1, D: 0 } },
          { wait: 1e-6 },
          { set: { A: 1 } },
          { wait: address - pulse },
          { set: { '/WE': 0 } },
          { wait: pulse - data },
          { set: { D: 0xff } },
          { wait: data },
          { set: { '/WE': 1 } },
          { wait: 1e-6 },
        ],
      });
      return sim.events.at(-1)?.outcome;
    };
    expect(written(62e-9, 52e-9, 32e-9)).toBe('stored');
    expect(written(62e-9, 48e-9, 32e-9)).toBe('uncertain');
    expect(written(57e-9, 52e-9, 32e-9)).toBe('uncertain');
    expect(written(62e-9, 52e-9, 28e-9)).toBe('uncertain');
  });
});

describe('ultraviolet light', () => {
  const READ: VectorStep = { set: { A: 0, '/CE': 0, '/OE': 0, VPP: 1 } };
  const contents = { '000': '00'.repeat(512), '200': '00'.repeat(512), '400': '00'.repeat(512), '600': '00'.repeat(512) };
  const ALL = 16_384;
  /** how many of the bits read 1 (an uncertain one counts as erased) */
  const erased = (seconds: number, wattsPerCm2: number, covered?: true) => {
    const { sim } = runVector(kindOf('uv-eprom-2kx8'), {
      says: '',
      contents,
      steps: [READ, { light: seconds, wattsPerCm2, ...(covered ? { covered } : {}) }],
    });
    const zeros = Object.values(sim.plan().memories.U1 ?? {}).flatMap((row) => [...row].map((digit) => 4 - onesOf(digit)));
    // rows that are not named are erased
    return ALL - zeros.reduce((n, z) => n + z, 0);
  };
  test('an eraser of 12 mW/cm² needs more than ten minutes, and 35 are enough for every part (S26: 15 to 20, some 30 to 35 minutes), but not through a label', () => {
    expect(erased(600, 12e-3)).toBeLessThan(ALL);
    expect(erased(35 * 60, 12e-3)).toBe(ALL);
    expect(erased(35 * 60, 12e-3, true)).toBe(0);
  });
  test('a fifth of it leaves nearly everything (S30: find the least time, and give five times that), half of it erases some', () => {
    expect(erased(250 * 0.85, 12e-3)).toBe(0);
    const half = erased(625, 12e-3);
    expect(half).toBeGreaterThan(0.2 * ALL);
    expect(half).toBeLessThan(0.8 * ALL);
  });
  test('twice half the light is the whole, and leaves no bit that is uncertain', () => {
    const look = (address: number): VectorStep[] => [{ set: { A: address } }, { wait: 1e-6 }, { see: { D: 0xff } }];
    const { wrong, sim } = runVector(kindOf('uv-eprom-2kx8'), {
      says: '',
      contents,
      steps: [
        READ,
        { light: 625, wattsPerCm2: 12e-3 },
        { light: 625, wattsPerCm2: 12e-3 },
        ...Array.from({ length: 64 }, (_, i) => look(31 * i)).flat(),
      ],
    });
    expect(wrong).toEqual([]);
    expect(sim.now).toBeGreaterThan(1250);
  });
  test('a part without a window says so', () => {
    const sim = mustDo('eeprom-2kx8', { steps: [REST, { wait: 1e-6 }] });
    const refused = sim.act({ do: 'light', part: 'U1', seconds: 1, wattsPerCm2: 12e-3 });
    expect(refused).toEqual({
      ok: false,
      failure: { code: 'run/no-window', at: 'U1', says: 'U1 has no window for light. Choose a UV EPROM.' },
    });
  });
  test('a pulse without VPP is reported with the voltage that was there (8K × 8)', () => {
    const sim = mustDo('uv-eprom-8kx8', {
      high: 21,
      steps: [
        { set: { A: 0, '/CE': 0, '/OE': 1, '/PGM': 1, VPP: 1, D: 0 } },
        { wait: 1e-3 },
        { set: { '/PGM': 0 } },
        { wait: 0.05 },
        { set: { '/PGM': 1 } },
        { wait: 1e-3 },
      ],
    });
    const [report] = sim.events;
    expect(report).toMatchObject({ outcome: 'ignored', faults: [{ fault: 'no-program-voltage', limit: 20.5 }] });
    expect(report?.faults[0] && 'measured' in report.faults[0] ? report.faults[0].measured : 0).toBeCloseTo(5, 1);
  });
});
