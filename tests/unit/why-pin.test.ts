/** Why a pin has the level it has: driven, pulled, floating, between its levels, or undefined because of what is behind it. */
import { describe, expect, test } from 'vitest';
import { readQuestion } from '../../sim-core/index.ts';
import { askable, askWhy } from '../support/asked-why.ts';
import { LED_ON_D0, logicChip, MEMORY, READ_BY_S3, start } from '../support/bench.ts';

const READING = `${MEMORY}${LED_ON_D0}
  wire A0 black from a19 to -a18
  wire A1 black from a18 to -a17
  wire WE red from i15 to +j14
  wire OE black from i16 to -j16
  memory U1 0 FF`;

describe('an input', () => {
  test('is high or low by its switch, and its limits stand beside its volts', () => {
    const bench = `${MEMORY}${LED_ON_D0}${READ_BY_S3}`;
    expect(askWhy(start(`${bench}\nswitch S3 set 0`), 'U1.A0')).toEqual([
      'U1 pin 8 (A0) reads high at 5 V. low up to 0.8 V, high from 2 V',
      'U1 pin 8 (A0) is high because pole 1 of S3 is open. 5 V',
    ]);
    const closed = askWhy(start(`${bench}\nswitch S3 set 1`), 'u1.8');
    expect(closed[0]).toMatch(/^U1 pin 8 \(A0\) reads low at /);
    expect(closed[1]).toMatch(/^U1 pin 8 \(A0\) is low because pole 1 of S3 is closed\./);
  });
  test('that a wire ties to a rail names the wire', () => {
    expect(askWhy(start(READING), 'U1./WE')).toEqual([
      'U1 pin 21 (/WE) reads high at 5 V. low up to 0.8 V, high from 2 V',
      'Wire WE ties U1 pin 21 (/WE) to the supply’s +. 5 V',
    ]);
  });
  test('that a resistor holds is held, and nothing is missing there', () => {
    const said = askWhy(start(READING.replace('wire A0 black from a19 to -a18', 'resistor R9 10k from a19 to -a19')), 'U1.A0');
    expect(said[0]).toMatch(/^U1 pin 8 \(A0\) reads low at 0 V\./);
    expect(said[1]).toMatch(/^Only resistor R9 sets the level of U1 pin 8 \(A0\), and it pulls it low\./);
    expect(said).toHaveLength(2);
  });
  test('that floats is said in the words of the finding, and where its way ends', () => {
    const said = askWhy(start(READING.replace(/wire A0.*/, '')), 'U1.A0');
    expect(said[0]).toMatch(/^U1 pin 8 \(A0\) reads undefined \(X\) at /);
    expect(said[1]).toMatch(/^U1 pin 8 \(A0\) floats: not connected\. Leakage of up to 10 µA can carry it past 0\.8 V/);
    expect(said[2]).toMatch(/^Open circuit: nothing in board B1, row 19/);
  });
  test('between its levels names what pulls it up and what pulls it down, each with its current', () => {
    const said = askWhy(
      start(READING.replace('wire A0 black from a19 to -a18', 'resistor R9 1k from a19 to -a19\nresistor R8 2k7 from b19 to +j20')),
      'U1.A0',
    );
    expect(said[0]).toBe('U1 pin 8 (A0) reads undefined (X) at 1.35 V. low up to 0.8 V, high from 2 V');
    expect(said[1]).toMatch(/^U1 pin 8 \(A0\) is at 1\.35 V, undefined \(X\)/);
    expect(said.slice(2)).toEqual(['R8 leg 1 gives 1.35 mA. 3.65 V across 2.7 kΩ', 'R9 leg 1 takes 1.35 mA. 1.35 V across 1 kΩ']);
  });
});

describe('an output', () => {
  test('is high or low by the byte behind it', () => {
    expect(askWhy(start(READING), 'U1.D1')[0]).toMatch(/^U1 pin 10 \(D1\) drives high at /);
    expect(askWhy(start(READING.replace('U1 0 FF', 'U1 0 FD')), 'U1.D1').slice(1)).toEqual([
      'The byte at 0x000 is FD: its bit 1 is 0. address 0x000 → 11111101',
    ]);
  });
  test('that is disabled is high-impedance by the wire at its enable', () => {
    const said = askWhy(start(READING.replace('wire OE black from i16 to -j16', 'wire OE red from i16 to +j16')), 'U1.D0');
    expect(said[0]).toMatch(/^U1 pin 9 \(D0\) reads undefined \(X\)/);
    expect(said.join('\n')).toContain('U1 pin 20 (/OE) is high, so the data pins are high-impedance (Z).');
    expect(said.join('\n')).toContain('Wire OE ties U1 pin 20 (/OE) to the supply’s +.');
  });
  test('is undefined while an address pin floats', () => {
    const said = askWhy(start(READING.replace(/wire A0.*/, '').replace('U1 0 FF', 'U1 0 FFFE')), 'U1.D0');
    expect(said[0]).toMatch(/^U1 pin 9 \(D0\) is undefined \(X\)\./);
    expect(said.join('\n')).toMatch(/U1 pin 8 \(A0\) is undefined \(X\), so the memory may be reading any of 2 bytes/);
  });
  test('that another overrides is in contention, with its current and its limit', () => {
    const said = askWhy(start(`${READING}\nwire F black from a21 to -a21`), 'U1.D1');
    expect(said[1]).toMatch(/^Contention: U1 pin 10 \(D1\) drives high against/);
  });
  test('below the supply range is undefined for that', () => {
    const said = askWhy(start(READING.replace('bench-supply PS1', 'bench-supply PS1 4')), 'U1.D0');
    expect(said[0]).toMatch(/^U1 pin 9 \(D0\) is undefined \(X\)\./);
    expect(said.join('\n')).toMatch(/has 4 V at its pin 24 \(VCC\) \(range 4\.5 to 5\.5 V\)/);
  });
  test('of a register that was never clocked is undefined, and it is said for how long', () => {
    const register = `${logicChip('octal-register')}
      wire WO from a40 to -a31`;
    const said = askWhy(start(register), 'U2.Q1');
    expect(said[0]).toMatch(/^U2 pin \d+ \(Q1\) is undefined \(X\)\.$/);
    expect(said[1]).toMatch(/shows what octal D register U2 has stored, and that is undefined \(X\): so it is from power-on until/);
  });
});

describe('a supply pin', () => {
  test('is said with its range', () => {
    expect(askWhy(start(READING), 'U1.VCC')).toEqual(['U1 pin 24 (VCC) is at 5 V against the chip’s ground. range 4.5 to 5.5 V']);
  });
  test('without its wire is followed to where its way ends', () => {
    const said = askWhy(
      start(READING.replace(/wire P4.*/, '').replace('wire WE red from i15 to +j14', 'resistor WE 10k from i15 to +j14')),
      'U1.VCC',
    );
    expect(said.join('\n')).toMatch(/Memory U1 has no supply/);
    expect(said.join('\n')).toMatch(/open circuit: nothing in board B1, row 12/i);
  });
});

test('a leg of a part without levels is no pin to ask about', () => {
  const sim = start(READING);
  const question = readQuestion('R1.1', askable(sim));
  expect(!question.ok && question.failure.says).toBe(
    'Resistor R1 has no why of its own. Ask about an LED (LED1), a pin (U1.A7), a wire (P1) or a memory (U1).',
  );
});
