/** What a net's reading is called where the supply is off, and where there is none. */
import { expect, test } from 'vitest';
import { driveText } from '../../client/panel/lists/drive-text.ts';
import { start } from '../support/bench.ts';

const LOOSE = 'board-30 B1\n resistor R1 1k from a1 to a5';
const says = (bench: string): string => {
  const sim = start(bench);
  const readings = sim.readings();
  return driveText(readings.nets[sim.circuit.nets.ofStrip.get('B1/1a')!.index]!, readings);
};

test('the supply is off where there is one, and where there is none the net floats', () => {
  expect(says(`${LOOSE}\n bench-supply PS1\n wire W1 red from PS1.+ to b1`)).toBe('the supply is off');
  expect(says(LOOSE)).toBe('floating');
});
