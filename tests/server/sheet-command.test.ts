/** `lampwright sheet`: the build sheet as text and as data. */
import { expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';

function run(...args: string[]) {
  const out: string[] = [];
  const refused: string[] = [];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

test('prints parts, stages and checks, as text and as data', () => {
  const { code, out } = run('sheet', 'wind-vane');
  expect(code).toBe(0);
  expect(out).toMatch(/13 × +Resistor, 10 kΩ, ± 5 % +brown black orange gold +R9 /);
  expect(out).toMatch(/^2\. Memory: supply and tied pins$/m);
  expect(out).toMatch(/ 5 +W50 +orange, B2:j12 to a12 +S1, pole 4 \(G0\) to U1, pin 8 \(A0\)$/m);
  expect(out).toMatch(
    /\[ \] +9\.4 kΩ to 10\.6 kΩ +each of d9, d10, d11, d12 to PS1\.- +Held while S1 is open: U1 A3, U1 A2, U1 A1 and U1 A0$/m,
  );
  expect(out).toMatch(/\[ \] +LED3 lights, no other LED does +\+j\d+ to f24 /);
  const data = JSON.parse(run('sheet', 'wind-vane', '--json').out);
  expect(data.stages.map((s: { stage: string }) => s.stage)).toEqual(['power', 'memory', 'inputs', 'outputs', 'writing', 'chips']);
});
