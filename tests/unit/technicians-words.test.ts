/** Words that technicians say, in British and American English: each finds its part or its command, in the search of Parts and in the command line alike. */
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../client/commands/catalogue.ts';
import type { CommandContext } from '../../client/commands/command.ts';
import { choicesFor, commandsNamed } from '../../client/commands/line.ts';
import { partGroups } from '../../client/edit/part-search.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { PARTS } from '../../sim-core/index.ts';

/** What is looked for: a part by its kind, or by how such kinds begin. */
const PART_WORDS: ReadonlyArray<readonly [says: string, kind: string]> = [
  ['pull-down', 'resistor'],
  ['pull down', 'resistor'],
  ['pullup', 'resistor'],
  ['330R', 'resistor'],
  ['4k7', 'resistor'],
  ['10K resistor', 'resistor'],
  ['2R2', 'resistor'],
  ['bleeder', 'resistor'],
  ['dropper', 'resistor'],
  ['current limiting resistor', 'resistor'],
  ['tact switch', 'push-button'],
  ['tactile switch', 'push-button'],
  ['momentary', 'push-button'],
  ['push to make', 'push-button'],
  ['pushbutton', 'push-button'],
  ['toggle switch', 'dip-switch'],
  ['slide switch', 'dip-switch'],
  ['DIL switch', 'dip-switch'],
  ['SPST', 'dip-switch'],
  ['pot', 'potentiometer'],
  ['trimpot', 'potentiometer'],
  ['preset', 'potentiometer'],
  ['decoupling cap', 'capacitor'],
  ['bypass cap', 'capacitor'],
  ['100n', 'capacitor'],
  ['0.1uF', 'capacitor'],
  ['ceramic cap', 'capacitor'],
  ['electrolytic cap', 'electrolytic'],
  ['bulk cap', 'electrolytic'],
  ['smoothing capacitor', 'electrolytic'],
  ['choke', 'inductor'],
  ['flyback diode', 'diode'],
  ['catch diode', 'diode'],
  ['NPN', 'npn-transistor'],
  ['indicator lamp', 'led'],
  ['bulb', 'led'],
  ['red LED', 'led'],
  ['seven seg', 'seven-segment'],
  ['7 seg', 'seven-segment'],
  ['common anode', 'seven-segment-common-anode'],
  ['common cathode', 'seven-segment-common-cathode'],
  ['bargraph', 'led-bar-graph'],
  ['buffer', 'octal-buffer'],
  ['tri-state buffer', 'octal-buffer'],
  ['tristate', 'octal-buffer'],
  ['octal latch', 'octal-latch'],
  ['transparent latch', 'octal-latch'],
  ['flip flop', 'octal-register'],
  ['demux', 'decoder-3-to-8'],
  ['hex inverter', 'hex-inverter'],
  ['XOR gate', 'quad-xor'],
  ['one shot', 'timer'],
  ['xtal', 'crystal-oscillator'],
  ['function generator', 'clock-generator'],
  ['relay driver', 'darlington-array'],
  ['EPROM', 'uv-eprom'],
  ['EEPROM', 'eeprom'],
  ['SRAM', 'static-ram'],
  ['OTP', 'prom'],
  ['PSU', 'bench-supply'],
  ['mains adaptor', 'usb-supply'],
  ['wall wart', 'usb-supply'],
  ['battery pack', 'battery'],
];

/** A pin is asked for by what it is called: any part that has it will do. */
const PIN_WORDS: ReadonlyArray<readonly [says: string, pin: RegExp]> = [
  ['chip select', /^\/?(CE|CS|E)\d*$/],
  ['chip enable', /^\/?(CE|CS|E)\d*$/],
  ['output enable', /^\/?\d?O?[EG]\d*$/],
  ['write enable', /^\/?(WE|W)$/],
];

/** What is looked for: a command by its name. */
const COMMAND_WORDS: ReadonlyArray<readonly [says: string, command: string]> = [
  ['jumper', 'lay wires'],
  ['jumper wire', 'lay wires'],
  ['hookup wire', 'lay wires'],
  ['patch lead', 'lay wires'],
  ['breadboard', 'add board'],
  ['protoboard', 'add board'],
  ['bus strip', 'connect rails'],
  ['ground rail', 'connect rails'],
  ['scope', 'timing diagram'],
  ['logic analyser', 'timing diagram'],
  ['logic analyzer', 'timing diagram'],
  ['probe', 'meter'],
  ['logic probe', 'meter'],
  ['multimeter', 'meter'],
  ['DMM', 'meter'],
  ['ammeter', 'meter'],
  ['ohmmeter', 'net list'],
  ['continuity', 'net list'],
  ['schematic', 'net list'],
  ['netlist', 'net list'],
  ['BOM', 'part list'],
  ['truth table', 'table'],
  ['Karnaugh map', 'table'],
  ['hex file', 'bytes'],
  ['hex dump', 'bytes'],
  ['checksum', 'bytes'],
  ['burn', 'programming card'],
  ['blow', 'programming card'],
  ['programmer', 'programming card'],
  ['verify', 'bytes'],
  ['self test', 'prove'],
  ['troubleshoot', 'findings'],
  ['fault finding', 'findings'],
  ['pinout', 'inside view'],
  ['power on', 'switch'],
  ['colour', 'set'],
  ['color', 'set'],
  ['save', 'save'],
  ['print', 'print'],
  ['undo', 'undo'],
  ['zoom', 'zoom in'],
  ['dark mode', 'dark theme'],
  ['projector', 'presentation mode'],
  ['screenshot', 'save png'],
  ['shortcuts', 'keys'],
  ['share', 'share'],
  ['QR code', 'share'],
];

const context = {
  session: { model: makeBenchModel(demoPlan('greenhouse')!), readings: { switches: {} } },
  chooser: { demos: [] },
  builder: { chosen: [] },
} as unknown as CommandContext;

/** Among so many of the list. */
const FIRST = 3;
const inParts = (says: string) => partGroups(says).flatMap((g) => g.offers.map((o) => o.kind));
const inLine = (says: string) =>
  choicesFor(says, COMMANDS, context)
    .slice(0, FIRST)
    .map((c) => c.line);
const placed = (line: string) => partGroups(line.replace(/^place /, ''))[0]?.offers[0]?.kind;

test('there are 80 words and more, each once', () => {
  const all = [...PART_WORDS, ...PIN_WORDS, ...COMMAND_WORDS].map(([says]) => says.toLowerCase());
  expect(all.length).toBeGreaterThanOrEqual(80);
  expect(new Set(all).size).toBe(all.length);
  expect(PART_WORDS.map(([, kind]) => kind).filter((kind) => !PARTS.some((p) => p.id.startsWith(kind)))).toEqual([]);
  expect(COMMAND_WORDS.map(([, name]) => name).filter((name) => !COMMANDS.some((c) => c.name === name))).toEqual([]);
});

describe('a part', () => {
  test.for(PART_WORDS)('"%s" finds %s', ([says, kind]) => {
    expect(
      inParts(says)
        .slice(0, 2)
        .map((k) => k.id)
        .some((id) => id.startsWith(kind)),
    ).toBe(true);
    expect(inLine(says).some((line) => line.startsWith('place ') && placed(line)?.id.startsWith(kind))).toBe(true);
  });

  test.for(PIN_WORDS)('"%s" finds parts with such a pin, and only those', ([says, pin]) => {
    const has = (kind: (typeof PARTS)[number]) =>
      kind.pins(Object.fromEntries(kind.params.map((p) => [p.name, p.fallback]))).some((p) => pin.test(p.name));
    expect(inParts(says).length).toBeGreaterThan(0);
    expect(inParts(says).filter((k) => !has(k))).toEqual([]);
    expect(inLine(says)[0]).toBe(`place ${says}`);
  });
});

describe('a command', () => {
  test.for(COMMAND_WORDS)('"%s" finds %s', ([says, name]) => {
    const isIt = (line: string) => line === name || line.startsWith(`${name} `);
    expect(inLine(says).some(isIt)).toBe(true);
    // Parts shows it too, for whoever looks there first
    expect(commandsNamed(says, COMMANDS).some((o) => isIt(o.line))).toBe(true);
  });
});
