/** Why a byte did not stick: the last write as it was measured, or what keeps a press from being one. */
import { describe, expect, test } from 'vitest';
import { addressSwitch, DATA_5A, dataSwitch, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { type Action, findingsNow, plain, type Simulation, sayFinding } from '../../sim-core/index.ts';
import { askWhy } from '../support/asked-why.ts';
import { MEMORY, READY_TO_WRITE, start, writeNetwork } from '../support/bench.ts';

const press: Action = { do: 'press', part: 'S9' };
const release: Action = { do: 'release', part: 'S9' };
const open: Action = { do: 'set', part: 'S1', pole: 0, closed: false };
const withoutD0 = DATA_5A.replace(/wire WD0.*\n/, '');

function played(bench: string, acts: readonly (readonly [Action, number])[]): Simulation {
  const sim = start(bench, { bounce: false });
  for (const [act, seconds] of acts) {
    sim.begin(act);
    sim.wait(seconds);
  }
  return sim;
}

describe('the last write', () => {
  test('that was stored says where, how wide its pulse was, and that the byte is still there', () => {
    const said = askWhy(
      played(memoryBench(DATA_5A + writeButton()), [
        [press, 0.1],
        [release, 0.1],
      ]),
      'U1 write',
    );
    expect(said[0]).toMatch(
      /^The last write to memory U1, byte 5A at address 0x000 at [\d.]+ .?s, was stored\. pulse [\d.]+ ns guaranteed, \d+ ns maximum; at least 100 ns/,
    );
    expect(said).toContain('Memory U1 still holds 5A at address 0x000.');
  });
  test('is looked for at another address once the switches have moved', () => {
    const sim = played(memoryBench(DATA_5A + writeButton() + addressSwitch('1', '4k7'), 'WA0'), [
      [press, 0.1],
      [release, 0.1],
      [open, 0.1],
    ]);
    expect(askWhy(sim, 'U1 write').join('\n')).toMatch(/The address pins of memory U1 now read 0x000, not 0x001/);
  });
  const cases: readonly (readonly [what: string, bench: string, acts: readonly (readonly [Action, number])[], says: RegExp])[] = [
    [
      '/OE is low',
      memoryBench(writeButton().replace('+j11', '-j11')),
      [[press, 0.1]],
      /was ignored\.[\s\S]*\/OE was low[\s\S]*Wire WOE ties U1 pin 20 \(\/OE\) to the supply’s −/,
    ],
    [
      'its supply is too low',
      memoryBench(DATA_5A + writeButton()).replace('PS1 5', 'PS1 3.5'),
      [[press, 0.1]],
      /was ignored\.[\s\S]*its supply was 3\.5 V \(at least 3\.8 V\)/,
    ],
    [
      'it has just been switched on',
      memoryBench(DATA_5A + writeButton()).replace('switch PS1 set 1', 'switch PS1 set 0'),
      [
        [{ do: 'set', part: 'PS1', pole: 0, closed: true }, 0.001],
        [press, 0.01],
      ],
      /was ignored\.[\s\S]*writes are locked out for 5 ms/,
    ],
    [
      'the pulse is too short',
      memoryBench(DATA_5A + writeButton('330p')),
      [[press, 0.1]],
      /has left the byte undefined \(X\)\. pulse [\d.]+ ns guaranteed, \d+ ns maximum; at least 100 ns[\s\S]*Use a capacitor/,
    ],
    [
      'the pulse is too short to be seen',
      memoryBench(DATA_5A + writeButton('30p')),
      [[press, 0.1]],
      /was ignored[\s\S]*too short to be seen/,
    ],
    [
      'an address pin floats',
      memoryBench(DATA_5A + writeButton(), 'WA0'),
      [[press, 0.1]],
      /address was undefined \(X\)[\s\S]*U1 pin 8 \(A0\) floats: not connected/,
    ],
    ['a data pin floats', memoryBench(withoutD0 + writeButton()), [[press, 0.1]], /5\?[\s\S]*U1 pin 9 \(D0\) floats: it is not connected/],
    [
      'the address moved too early',
      memoryBench(DATA_5A + writeButton() + addressSwitch('1', '4k7'), 'WA0'),
      [
        [press, 0],
        [open, 0.1],
      ],
      /the address hold time was [\d.]+ ns \(at least 50 ns\)[\s\S]*Address hold: [\d.]+ ns\. at least 50 ns/,
    ],
  ];
  test.each(cases)('says why: %s', (_, bench, acts, says) => {
    const sim = played(bench, acts);
    const said = askWhy(sim, 'U1 write');
    expect(said.join('\n')).toMatch(says);
    // one source: what the findings of the log say now stands in the answer too
    for (const f of findingsNow(sim).filter((g) => /^memory\/(write|setup)/.test(g.code)))
      expect(said).toContain(plain(sayFinding(f, sim.plan())));
  });
  test('that came while the memory was storing says how long after the write before', () => {
    const sim = played(memoryBench(withoutD0 + writeButton() + dataSwitch('1k')), [
      [press, 10e-6],
      [release, 400e-6],
      [open, 10e-6],
      [press, 50e-6],
    ]);
    expect(sim.events.map((e) => e.outcome)).toEqual(['stored', 'ignored']);
    const said = askWhy(sim, 'U1 write').join('\n');
    expect(said).toMatch(/^The last write to memory U1, byte 5A at address 0x000 at 420 µs, was ignored\./);
    expect(said).toContain('busy storing the byte before');
    expect(said).toMatch(/The write before it had begun 420 µs earlier\./);
  });
});

describe('no write has come', () => {
  const READY = `${MEMORY}${READY_TO_WRITE}\nwire A0 black from a19 to -a24`;
  test('because nobody has pressed: a press would bring one', () => {
    const said = askWhy(start(READY + writeNetwork()), 'U1 write');
    expect(said.slice(0, 2)).toEqual([
      'No write has come to memory U1 since this bench was started.',
      'A press of push button SB1 does bring a write to memory U1, tried on a copy of this bench at rest, and so does the next. Press it.',
    ]);
  });
  test('because the button’s two sides are one net', () => {
    const sim = start(`${READY}${writeNetwork()}\nwire X black from c5 to c7`);
    sim.act({ do: 'press', part: 'SB1' });
    const said = askWhy(sim, 'U1 write').join('\n');
    expect(said).toContain('A press of push button SB1 brings no write to memory U1, tried twice');
    expect(said).toMatch(/Both sides of push button SB1 are one net: SB1 pin 1 and SB1 pin 2 are connected while it is open/);
  });
  test('because nothing discharges the capacitor', () => {
    const said = askWhy(start((READY + writeNetwork()).replace(/resistor R21.*/, '')), 'U1 write').join('\n');
    expect(said).toMatch(/push button SB1/);
    expect(said).toMatch(/Nothing discharges ceramic capacitor C20 while the button is open: no resistor connects C20 leg 2 to anything/);
  });
  test('because /WE is tied to plus', () => {
    const said = askWhy(start(`${READY}\nwire WE red from i15 to +j14`), 'U1 write').join('\n');
    expect(said).toContain('No button stands on this bench that could pull U1 pin 21 (/WE) low.');
    expect(said).toContain('Wire WE ties U1 pin 21 (/WE) to the supply’s +.');
  });
  test('because the memory is not selected: the button is not blamed', () => {
    const high = memoryBench(DATA_5A + writeButton()).replace('wire WCE from j18 to -j4', 'wire WCE from j18 to +j4');
    const said = askWhy(start(high), 'U1 write');
    expect(said[0]).toBe('No write has come to memory U1 since this bench was started.');
    expect(said[1]).toBe('U1 pin 18 (/CE) is high, and memory U1 takes a write only while it is low.');
    expect(said.slice(2).join('\n')).toContain('Wire WCE');
    expect(said.join('\n')).not.toMatch(/SB1|push button|no pulse/);
  });
  test('because the memory has no supply', () => {
    expect(askWhy(start((READY + writeNetwork()).replace('switch PS1 set 1', 'switch PS1 set 0')), 'U1 write').join('\n')).toMatch(
      /has no supply/,
    );
  });
});
