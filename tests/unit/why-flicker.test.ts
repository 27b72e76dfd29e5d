/** Why something flickers: seen on a copy where the bench never rests or a clock runs, and denied where nothing changes by itself. */
import { expect, test } from 'vitest';
import { ring } from '../../sim-core/findings/example-benches.ts';
import { askWhy } from '../support/asked-why.ts';
import { LED_ON_D0, MEMORY, READ_BY_S3, start } from '../support/bench.ts';

test('a loop that never rests is named with its period, whether a look has seen it move or not', () => {
  const said = askWhy(start(ring()), 'U1.D0 flickers');
  expect(said[0]).toMatch(/^This bench never rests, but no look at U1 pin 9 \(D0\) differed while a copy ran for /);
  expect(said[1]).toMatch(/^Memory U1 drives itself in a loop that never rests: the period is \d/);
});

test('a clock that runs is named', () => {
  const sim = start(`
    board-63 B1
    bench-supply PS1
    switch PS1 set 1
    wire P1 red from PS1.+ to +j1
    wire P2 black from PS1.- to -j1
    clock-generator U5 2
    wire W1 black from U5.- to -j20
    wire W4 red from U5.+ to +j20
    wire W2 yellow from U5.out to a30
    resistor R1 330 from b30 to a40
    led LED1 red from b40 to b44
    wire W3 black from a44 to -j30`);
  const said = askWhy(sim, 'LED1 flickers');
  expect(said[0]).toMatch(/^LED1 changes by itself: \d+ changes? (was|were) seen/);
  expect(said[1]).toBe('Clock generator U5 runs all the time.');
});

test('what rests does not flicker in the simulation; its contacts bounce, and a real wire may sit loose', () => {
  const said = askWhy(start(`${MEMORY}${LED_ON_D0}${READ_BY_S3}`), 'LED1 flicker');
  expect(said).toEqual([
    'LED1 does not flicker in the simulation: nothing on this bench changes by itself now.',
    'When DIP switch S3 moves, its contact bounces for 1.56 ms on average: what they set may change several times. at most 6.2 ms',
    'On a real bench a leg or a wire that sits loose in its hole flickers when it is touched (common practice, no source).',
  ]);
});

test('a floating input is said to be one', () => {
  const said = askWhy(start(`${MEMORY}${LED_ON_D0}`), 'LED1 flickers').join('\n');
  expect(said).toMatch(/floats: not connected/);
});
