/** What a net's reading is called where the supply is off, and where there is none. */
import { expect, test } from 'vitest';
import { driveText } from '../../client/panel/lists/drive-text.ts';
import { start } from '../support/bench.ts';

const LOOSE = 'B1 board-30\n R1 resistor a1 a5 ohms=1k';
const says = (bench: string): string => {
  const sim = start(bench);
  const readings = sim.readings();
  return driveText(readings.nets[sim.circuit.nets.ofStrip.get('B1/1a')!.index]!, readings);
};

test('the supply is off where there is one, and where there is none the net floats', () => {
  expect(says(`${LOOSE}\n PS1 bench-supply\n W1 wire PS1.+ b1 red`)).toBe('the supply is off');
  expect(says(LOOSE)).toBe('floating');
});
