/** With the bench known as it is meant, why names the difference that carries what the LED shows, and never one that leaves the circuit equal. */
import { expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { apply, asMeant, plain, sayWhy, whyLed } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { at, greenhouse as bench, wireAt, without, withPart, withWire } from '../support/edited-bench.ts';

const greenhouse = asMeant(bench);
/** the first LED that is not as on the bench as meant, at the first setting at which there is one, in words */
function firstWhy(plan: Plan) {
  for (let row = 0; row < 32; row++) {
    const sensors = Array.from({ length: 5 }, (_, k) => ((row >> k) & 1) === 1);
    const [sim, whole] = [start(at(sensors, plan)), start(at(sensors, greenhouse))];
    const looks = whole.readings().leds;
    const led = sim.readings().leds.find((l) => looks.some((w) => w.led === l.led && w.brightness !== l.brightness));
    if (!led) continue;
    const answer = whyLed(sim, led.led);
    const words = sayWhy(answer, sim.plan());
    return { answer, headline: plain(words.headline), fix: words.proof ? plain(words.proof.says) : '', sim };
  }
  throw new Error('no LED shows it');
}
const memory = greenhouse.parts.find((p) => p.id === 'U1')!;
const pullDown = greenhouse.parts.find((p) => p.kind === 'resistor' && Number(p.params?.ohms) > 2e3)!;
const s1 = greenhouse.parts.find((p) => p.id === 'S1')!;
const oneOn = `${memory.at!.charAt(0)}${Number(memory.at!.slice(1)) + 1}`;

test.each<[string, Plan, RegExp, RegExp]>([
  [
    'a wire that is missing',
    without(greenhouse, wireAt('j27').id),
    /: wire W\d+ from j27 to -j\d+ is missing\./,
    /^Add a wire from j27 to -j\d+: /,
  ],
  [
    'a wire that is one row off',
    withWire(greenhouse, wireAt('b6').id, wireAt('b6').from === 'b6' ? { from: 'b7' } : { to: 'b7' }),
    /: wire W\d+ ends in b7; as meant it ends in b6\./,
    /^Move the end of wire W\d+ from b7 to b6: /,
  ],
  [
    'a pull-down that is missing',
    without(greenhouse, pullDown.id),
    /: resistor R\d+ from \S+ to \S+ is missing\./,
    /^Put resistor R\d+ back, from /,
  ],
  [
    'a resistor of another value',
    withPart(greenhouse, 'R6', { params: { ohms: 3300 } }),
    /: resistor R6 is 3\.3 kΩ; as meant it is 470 Ω|: resistor R6 is 3\.3 kΩ; as meant it is 330 Ω/,
    /^Set resistor R6 to /,
  ],
  [
    'the supply at 2 V',
    withPart(greenhouse, 'PS1', { params: { volts: 2 } }),
    /: supply PS1 is 2 V; as meant it is 5 V\./,
    /^Set supply PS1 to 5 V: /,
  ],
  [
    'a memory that is one row off',
    withPart(greenhouse, 'U1', { at: oneOn }),
    /: memory U1 stands at \S+; as meant it stands at \S+\./,
    /^Move memory U1 back to /,
  ],
  [
    'a switch end for end',
    {
      ...greenhouse,
      parts: greenhouse.parts.map((p) => (p.id === 'S1' ? { ...p, at: `f${Number(s1.at!.slice(1)) + 4}`, rotated: true as const } : p)),
    },
    /: DIP switch S1 \(sensors\) is end for end/,
    /^Rotate DIP switch S1 \(sensors\) by half a turn: /,
  ],
])('%s is named at once, and the fix puts all rows right', (_, plan, says, does) => {
  const { answer, headline, fix, sim } = firstWhy(plan);
  expect(headline).toMatch(says);
  expect(fix).toMatch(does);
  expect(fix).toMatch(/All 32 rows of the table are then right\.$/);
  const fixed = apply(sim.plan(), answer.proof!.change);
  expect({ ...fixed, parts: [...fixed.parts].sort(byId), wires: [...fixed.wires].sort(byId) }).toMatchObject({
    parts: [...greenhouse.parts].sort(byId),
    wires: [...greenhouse.wires].sort(byId),
  });
});
const byId = (a: { readonly id: string }, b: { readonly id: string }) => (a.id < b.id ? -1 : 1);

test('of several differences the one that the LED shows is named, whatever else was drawn otherwise', () => {
  const [w] = [wireAt('b6')];
  const end = w.from === 'b6' ? 'from' : 'to';
  // drawn again under another name and with its ends exchanged, another colour, another hole of the same row: all the same circuit
  const redrawn = {
    ...greenhouse,
    wires: greenhouse.wires.map((v) => (v.id === w.id ? { id: 'W99', colour: 'blue', from: v.to, to: v.from } : v)),
  };
  const both = withPart(redrawn, 'R6', { params: { ohms: 330e3 } });
  const { answer, headline } = firstWhy(both);
  expect(answer.led).toBe('LED6');
  expect(headline).toMatch(/: resistor R6 is 330 kΩ/);
  // another sensor's wire one row off does not show in that LED
  const two = withWire(withPart(greenhouse, 'R6', { params: { ohms: 330e3 } }), w.id, { [end]: 'b7' });
  const sim = start(at([false, false, true, false, false], two));
  expect(plain(sayWhy(whyLed(sim, 'LED6'), sim.plan()).headline)).toMatch(/: resistor R6 is 330 kΩ/);
});

test('an LED that is as on the bench as meant is explained by what is so, not by a difference', () => {
  const sim = start(at([true, false, false, false, false], withPart(greenhouse, 'R6', { params: { ohms: 330e3 } })));
  const lit = sim.readings().leds.find((l) => l.brightness === 'lit')!;
  expect(whyLed(sim, lit.led).reasons.map((r) => r.code)).not.toContain('meant-value');
});

test('two that only together undo it are both named', () => {
  // the LED has lost both its legs' rows
  const led = greenhouse.parts.find((p) => p.id === 'LED4')!;
  const plan = withPart(without(greenhouse, 'R4'), 'LED4', { at: led.to!, to: led.at! });
  const sim = start(at([false, false, true, false, false], plan));
  const { headline, proof } = sayWhy(whyLed(sim, 'LED4'), sim.plan());
  expect(plain(headline)).toMatch(/LED4 \(heater\) is dark: (it is the wrong way round|resistor R4 from)/);
  expect(plain(proof!.says)).toMatch(/^Put (LED4 \(heater\) and resistor R4|resistor R4 and LED4 \(heater\)) as meant: /);
});
