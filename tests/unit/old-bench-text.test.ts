/** Version 1 of the text notation: what was written in it gives the plans that it was written from. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { readBenchText, scanBenchText, simulate, writeBenchText } from '../../sim-core/index.ts';
import { ROOT } from '../support/sources.ts';

const read = (text: string) => readBenchText(text, (plan) => readPlan(JSON.stringify(plan)));

function plan(text: string): Plan {
  const bench = readBenchText(`bench-text 1\n${text}`);
  if (!bench.ok) throw new Error(bench.failure.says);
  return bench.value;
}

describe('the demonstrations as texts of version 1', () => {
  const texts = readdirSync(join(ROOT, 'tests/fixtures/texts-v1'));

  test('are thirteen', () => {
    expect(texts).toHaveLength(13);
  });

  test.each(texts)('%s gives the plan that it was written from', (file) => {
    const written = readFileSync(join(ROOT, 'tests/fixtures/texts-v1', file), 'utf8');
    const document = readPlan(readFileSync(join(ROOT, 'tests/fixtures/plans-v1', file.replace('.bench.txt', '.plan.json')), 'utf8'));
    const bench = read(written);
    expect(bench).toStrictEqual(document);
    if (bench.ok) expect(read(writeBenchText(bench.value))).toStrictEqual(document);
  });
});

describe('what people typed in it', () => {
  test('every word has its word of today, and LEDs their ids', () => {
    const typed = plan(`title Old # mine
wiring real
outputs guaranteed
B1 board-63 @0,0 split   # where it stands
B2 board-30
PS1 bench-supply @0,-10 volts=5 amps=0.5 "bench"
U1 eeprom-2kx8 d12 turned
U2 octal-buffer d30 unturned family=HCT
X1 crystal-clock at:"b 1" plain
R1 resistor a30 B2:-a25 ohms=4k7 tolerance="5" damaged:power:1/250m
L1 led f33 e33 colour=red damaged:current:280m/30m:1,2
D2 led to:"a" "a \\"b\\" # c"
"note" resistor b1 b5
W1 lead PS1.+ +j1
W2 lead "PS1.+" L1.1 red
U1 memory 000=ff00 010=${'AA'.repeat(32)}
U1 memory    +BB
U3 memory erased
U1 cells uncertain 000=0F 001=01 +02
U1 cells charge 3=${'0123456789ABCDEF'.repeat(2)} +${'F'.repeat(32)}
U1 cells writes 000=12x4 010=1x1
U2 cells nothing
PS1 hands 1
S1 hands 10 110
S2 hands none
M1 meter a12 against b3 @2,-3.5 "tag"
M2 meter through L1.1
M3 meter level at:"a 12"
M4 meter at:"x" against:"y"
wanted input hot U1.A0
wanted output "grow light" U1.D0 active-low lamp=L1
wanted rule light when cold
wanted logic none
wanted rows 0: 01 00
wanted free none
proof 2026-01-31 rows=2 of=${'0'.repeat(64)} by="A. Name" stood=S1:--,L1:1
note "two\\nlines"`);
    expect(typed).toStrictEqual({
      format: 'lampwright-plan',
      version: 2,
      title: 'Old',
      boards: [
        { id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: true },
        { id: 'B2', kind: 'board-30', spot: [0, 21], splitRails: false },
      ],
      parts: [
        { id: 'PS1', kind: 'bench-supply', spot: [0, -10], params: { volts: 5, amps: 0.5 }, label: 'bench' },
        { id: 'U1', kind: 'eeprom-2kx8', at: 'd12', rotated: true },
        { id: 'U2', kind: 'octal-buffer', at: 'd30', params: { family: 'HCT' } },
        { id: 'X1', kind: 'crystal-oscillator', at: 'b 1', params: {} },
        {
          id: 'R1',
          kind: 'resistor',
          at: 'a30',
          to: 'B2:-a25',
          params: { ohms: 4700, tolerance: '5' },
          damaged: { by: 'power', measured: 1, limit: 0.25 },
        },
        {
          id: 'LED1',
          kind: 'led',
          at: 'f33',
          to: 'e33',
          params: { colour: 'red' },
          damaged: { by: 'current', measured: 0.28, limit: 0.03, pins: ['1', '2'] },
        },
        { id: 'LED2', kind: 'led', to: 'a', label: 'a "b" # c' },
        { id: 'note', kind: 'resistor', at: 'b1', to: 'b5' },
      ],
      wires: [
        { id: 'W1', from: 'PS1.+', to: '+j1', colour: 'green' },
        { id: 'W2', from: 'PS1.+', to: 'LED1.1', colour: 'red' },
      ],
      memories: { U1: { '000': 'FF00', '010': `${'AA'.repeat(32)}BB` }, U3: {} },
      cells: {
        U1: {
          uncertain: { '000': '0F', '001': '0102' },
          charge: { '3': `${'0123456789ABCDEF'.repeat(2)}${'F'.repeat(32)}` },
          writes: { '000': [12, 4], '010': [1, 1] },
        },
        U2: {},
      },
      wanted: {
        inputs: [{ name: 'hot', pin: 'U1.A0' }],
        outputs: [{ name: 'grow light', pin: 'U1.D0', activeLow: true, led: 'LED1' }],
        rules: ['light when cold'],
        rows: [1, 0],
        dontCare: [],
        expressions: [],
      },
      proof: { date: '2026-01-31', by: 'A. Name', rows: 2, fingerprint: '0'.repeat(64), switches: { S1: '--', LED1: '1' } },
      meters: [
        { id: 'M1', measures: 'volts', at: 'a12', against: 'b3', label: 'tag', tag: [2, -3.5] },
        { id: 'M2', measures: 'amps', leg: 'LED1.1' },
        { id: 'M3', measures: 'level', at: 'a 12' },
        { id: 'M4', measures: 'volts', at: 'x', against: 'y' },
      ],
      notes: ['two\nlines'],
      switches: { PS1: [true], S1: [true, false, true, true, false], S2: [] },
      wiring: 'real',
      outputs: 'guaranteed',
    });
    expect(readBenchText(writeBenchText(typed))).toStrictEqual({ ok: true, value: typed });
  });

  test('a bench of which nothing is said but its first line', () => {
    expect(plan('wanted nothing\ncells nothing')).toMatchObject({ cells: {}, wanted: { inputs: [], outputs: [], rules: [], rows: [] } });
  });

  test.each([
    ['R1 resistor a1 a5 ohms=', 'There is nothing after "ohms"'],
    ['R1 resistor a1 a5 "vent', 'The quotes before vent are not closed.'],
    ['1R resistor a1 a5', '"1R" is not an id'],
    ['R1 resistor a1 a5 worn', '"worn" does not belong there'],
    ['W1 lead a1', 'wires/0/to is ""'],
    ['U1 memory 0=F', '"F" is not contents'],
    ['M1 meter', 'Meter M1 needs a place'],
  ])('%s is refused on its line', (line, says) => {
    const refused = read(`bench-text 1\nB1 board-63\n${line}`);
    expect(refused.ok ? 'was read' : refused.failure).toMatchObject({ at: 'line 3', says: expect.stringContaining(`Line 3: ${says}`) });
  });
});

describe('a line of version 1 that cannot be', () => {
  test.each(['R1 "re\\q" a30', 'R1 "x"y a30', 'R1 "a\tb" a30', 'R1 __proto__ a3', 'R1 constructor a3', 'R1'])(
    '%j is refused in words',
    (line) => {
      const { plan, problems } = scanBenchText(`bench-text 1\n${line}\n`);
      expect(problems.length > 0 || !simulate(plan).ok).toBe(true);
    },
  );
});

test('names of version 1 that are words of version 2 are names still, and a note may be "nothing"', () => {
  const read = readBenchText('bench-text 1\nwanted input at U1.A0\nwanted output on U1.D0\nnote nothing\n');
  expect(read).toMatchObject({ ok: true, value: { wanted: { inputs: [{ name: 'at' }], outputs: [{ name: 'on' }] }, notes: ['nothing'] } });
});
