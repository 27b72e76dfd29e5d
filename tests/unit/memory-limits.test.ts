/** Times of memories at both sides of their limits, on a bench that switches every pin: erasing the chip, programming pulses, what stands still before them. */
import { describe, expect, test } from 'vitest';
import { mustDo } from '../support/part-bench.ts';
import type { VectorStep } from '../vectors/vector.ts';

describe('clearing an EEPROM as a whole', () => {
  const REST: VectorStep = { set: { A: 0, '/CE': 0, '/OE': 1, '/WE': 1 } };
  /** /OE at 12 V, /WE low for so long (S2: 10 ms at least), and the first two bytes read after it */
  const read = (seconds: number, oe: 'high' | 1 = 'high', kind = 'eeprom-2kx8') => {
    const at = (address: number): VectorStep[] => [{ set: { A: address } }, { wait: 2e-6 }];
    const sim = mustDo(kind, {
      contents: { '000': '1122' },
      steps: [
        REST,
        { wait: 0.02 },
        { set: { '/OE': oe } },
        { wait: 10e-6 },
        { set: { '/WE': 0 } },
        { wait: seconds },
        { set: { '/WE': 1 } },
        { wait: 10e-6 },
        { set: { '/OE': 0 } },
        ...at(0),
        ...at(1),
      ],
    });
    return sim.readings().chips[0]?.state.data;
  };

  test('takes 10 ms of /WE at 12 V on /OE (S2): from then on every byte reads FF', () => {
    expect(read(10.1e-3)).toEqual({ value: 0xff, unknown: 0 });
    expect(read(9.9e-3)).not.toEqual({ value: 0xff, unknown: 0 });
  });
  test('cut short leaves every bit uncertain that is not erased yet', () => {
    expect(read(5e-3)?.unknown).toBe(0xff & ~0x22);
  });
  test('needs the 12 V: with /OE at 5 V it is a write', () => {
    expect(read(10.1e-3, 1)).not.toEqual({ value: 0xff, unknown: 0 });
  });
});

describe('programming a UV EPROM', () => {
  // 8K × 8: VPP 21 V, /PGM pulsed low
  const program = ({
    pulse = 0.05,
    address = 10e-6,
    data = 10e-6,
    hold = 10e-6,
  }: {
    pulse?: number;
    address?: number;
    data?: number;
    hold?: number;
  }) => {
    const early = Math.max(address, data);
    const steps: VectorStep[] = [{ set: { A: 0, '/CE': 0, '/OE': 1, '/PGM': 1, VPP: 'high', D: 0xff } }, { wait: 1e-3 }];
    // whichever has to stand still longer moves first
    if (address === early) steps.push({ set: { A: 1 } }, { wait: address - data }, { set: { D: 0x5a } }, { wait: data });
    else steps.push({ set: { D: 0x5a } }, { wait: data - address }, { set: { A: 1 } }, { wait: address });
    steps.push({ set: { '/PGM': 0 } }, { wait: pulse }, { set: { '/PGM': 1 } }, { wait: hold }, { set: { D: 'open' } }, { wait: 1e-3 });
    const [report] = mustDo('uv-eprom-8kx8', { high: 21, steps }).events;
    return { outcome: report?.outcome, faults: report?.faults.map((f) => f.fault) };
  };

  test('takes a pulse of 45 to 55 ms (S1, quoting a sheet of its kind: 50 ms, 55 ms at most)', () => {
    expect(program({})).toEqual({ outcome: 'stored', faults: [] });
    expect(program({ pulse: 44e-3 }).faults).toEqual(['pulse-short']);
    expect(program({ pulse: 46e-3 }).faults).toEqual([]);
    expect(program({ pulse: 54e-3 }).faults).toEqual([]);
    expect(program({ pulse: 56e-3 })).toEqual({ outcome: 'stored', faults: ['pulse-long'] });
  });
  test('wants address and data still for 2 µs before it (from memory)', () => {
    expect(program({ data: 2.2e-6 }).faults).toEqual([]);
    expect(program({ data: 1.8e-6 })).toEqual({ outcome: 'uncertain', faults: ['data-setup'] });
    expect(program({ address: 2.2e-6 }).faults).toEqual([]);
    expect(program({ address: 1.8e-6 })).toEqual({ outcome: 'uncertain', faults: ['address-setup'] });
  });
});

describe('writing a static RAM', () => {
  /** Data change so many seconds before /WE rises (40 ns is the least: S6); what is said of the write. */
  const written = (still: number) => {
    const sim = mustDo('static-ram-2kx8', {
      steps: [
        { set: { A: 5, D: 0, '/CS': 0, '/OE': 1, '/WE': 1 } },
        { wait: 1e-6 },
        { set: { '/WE': 0 } },
        { wait: 1e-6 },
        { set: { D: 0xff } },
        { wait: still },
        { set: { '/WE': 1 } },
        { wait: 1e-6 },
      ],
    });
    return sim.events.at(-1)?.faults.map((f) => f.fault);
  };
  test('wants data still for 40 ns before the end of the pulse', () => {
    expect(written(60e-9) ?? []).toEqual([]);
    expect(written(20e-9)).toContain('data-setup');
  });
});
