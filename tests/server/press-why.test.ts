/** `press PLAN why:…`: what may be asked about on the command line, and what is said where there is no answer. */
import { expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';

function press(...words: string[]) {
  const out: string[] = [];
  const refused: string[] = [];
  const code = runCommand(['press', 'greenhouse', 'PS1=on', ...words], { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

test.each([
  ['why:W1', /why:W1\nWire W1 carries [\d.]+ mA from PS1\.\+ to \+j8\.\n {2}U1 pin 24 \(VCC\) takes [\d.]+ mA\./],
  [
    'why:U1.A0',
    /why:U1\.A0\nU1 pin 8 \(A0\) reads low at 0 V\. low up to 0\.8 V, high from 2 V\.\n {2}U1 pin 8 \(A0\) is low because switch hot \(S1 pole 1\) is open\./,
  ],
  ['why:LED1=lit', /why:LED1=lit\n/],
])('%s is answered', (word, says) => {
  const { code, out } = press(word);
  expect(code).toBe(0);
  expect(out).toMatch(says);
});

test('what is not a question is told what is', () => {
  const { code, refused } = press('why:R1');
  expect(code).toBe(2);
  expect(refused).toMatch(
    /^Word 2, "why:R1": Resistor R1 has no why of its own\. Ask about an LED \(LED1\), a pin \(U1\.A7\), a wire \(W1\) or a memory \(U1\)\.$/,
  );
});
