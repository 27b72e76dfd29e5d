/** A request to the builder that chance draws: any table, any polarity of each output, every kind of load, memories by hand or loaded, names of all sorts. */
import { type BuildRequest, requestOfTable, type TruthTable } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

const LOADED = [
  'eeprom-2kx8',
  'eeprom-8kx8',
  'eeprom-32kx8',
  'eeprom-64kx8',
  'uv-eprom-2kx8',
  'uv-eprom-8kx8',
  'prom-2kx8',
  'mask-rom-2kx8',
];
const BY_HAND = ['eeprom-2kx8', 'eeprom-8kx8', 'static-ram-2kx8', 'static-ram-8kx8', 'uv-eprom-2kx8'];
/** With 15 address pins and more. */
const LARGE = ['eeprom-32kx8', 'eeprom-64kx8'];
const COLOURS = ['red', 'amber', 'green', 'blue', 'white'] as const;
/** Names that people give, some of them names of parts and pins. */
const NAMES = [
  'fan',
  'LED2',
  'R1',
  'U1',
  'S1',
  'D0',
  'U1.D0',
  'a',
  'Lüfter',
  'out 3',
  'PS1',
  'B2',
  'W4',
  'DS1',
  'DS1.a',
  'C1',
  'Q',
  'led1',
  'x y',
  '7',
];
/** Outputs that digits and arrangements are made for, among all the others. */
const OUTPUTS = [1, 2, 3, 4, 5, 6, 7, 7, 7, 8, 9, 10, 11, 12, 13, 14, 14, 14, 15, 16];

function drawing(seed: number) {
  const random = makeRandom(seed);
  const from = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1));
  const one = <T>(things: readonly T[]): T => things[from(0, things.length - 1)] as T;
  const chance = (part: number): boolean => random() < part;
  const shuffled = <T>(things: readonly T[]): T[] =>
    things
      .map((thing) => ({ thing, key: random() }))
      .sort((a, b) => a.key - b.key)
      .map((t) => t.thing);
  return { from, one, chance, shuffled };
}

export function randomRequest(seed: number): BuildRequest {
  const draw = drawing(seed);
  const inputs = Array.from({ length: draw.from(1, 15) }, (_, i) => `in ${i}`);
  const names = draw.chance(0.3) ? draw.shuffled(NAMES) : Array.from({ length: 16 }, (_, i) => `out ${i}`);
  const outputs = names.slice(0, draw.one(OUTPUTS));
  const table: TruthTable = {
    inputs,
    outputs,
    values: Uint16Array.from({ length: 2 ** inputs.length }, () => draw.from(0, 2 ** outputs.length - 1)),
    dontCare: Uint16Array.from({ length: 2 ** inputs.length }, () => (draw.chance(0.1) ? draw.from(0, 2 ** outputs.length - 1) : 0)),
  };
  const byHand = draw.chance(0.25);
  const show = draw.one(['leds', 'digit', 'bar', 'loads'] as const);
  const polarity = draw.one(['high', 'low', 'mixed', 'mixed'] as const);
  const low = (show === 'loads' && draw.chance(0.8)) || polarity === 'high' ? 0 : polarity === 'low' ? 1 : 0.5;
  return requestOfTable(table, {
    title: `Table ${seed}`,
    memory: inputs.length > 11 && draw.chance(0.8) ? draw.one(LARGE) : draw.one(byHand ? BY_HAND : LOADED),
    byHand,
    show,
    arrangement: draw.chance(show === 'leds' ? 0.2 : 0.03) ? draw.one(['cell', 'ring'] as const) : 'row',
    buffered: draw.chance(0.6),
    amps: draw.one([1e-3, 2e-3, 2.5e-3, 3e-3, 3e-3, 4e-3, 4e-3, 5e-3, 5e-3, 10e-3, 20e-3]),
    activeLow: outputs.filter(() => draw.chance(low)),
    ...(draw.chance(0.5) ? { colour: draw.one(COLOURS) } : {}),
    own: Object.fromEntries(outputs.flatMap((name) => (draw.chance(0.1) ? [[name, { amps: draw.from(2, 6) / 1000 }]] : []))),
  });
}
